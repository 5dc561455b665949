// What the form of the glance says, and what it does: a tap, the taking back or moving of one, or "I have seen this".

import { createHash } from 'node:crypto';
import { z } from 'zod';
import { addDays, clockTimeMs, localDateAt } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { TapAsked, WatchDesk } from '#publish/watch-desk.ts';
import { tapKind } from '#publish/wire-watch.ts';
import { MOST_NAME } from './remembered-name.ts';

export const glanceBody = z.strictObject({
  form: z.string().regex(/^[\w-]{8,32}$/),
  do: z.string().regex(/^[\w-]+(?: [\w-]{1,80}){0,2}$/, 'expected a button of the page'),
  by: z.string().trim().max(MOST_NAME).default(''),
  at: z
    .string()
    .regex(/^(?:[01]\d|2[0-3]):[0-5]\d$/, 'expected a clock time')
    .or(z.literal(''))
    .default(''),
  messages: z.string().max(4000).default(''),
});
export type GlanceBody = z.output<typeof glanceBody>;

interface Doing {
  readonly watch: WatchDesk;
  readonly viewer: Viewer;
  readonly siteKey: string;
  readonly timeZone: string;
  readonly nowMs: number;
}

const AHEAD_MS = 5 * MINUTE_MS;

/** Throws ServiceError `bad_body`, `not_found`, `store_unavailable`. */
export async function doGlance(doing: Doing, body: GlanceBody): Promise<void> {
  const { watch, siteKey, viewer } = doing;
  const [what = '', burn, tap] = body.do.split(' ');
  const by = body.by === '' ? viewer.name : body.by;
  if (what === 'seen') return answerAll(doing, body, by);
  const asked = (fields: Pick<TapAsked, 'tap'> & Partial<TapAsked>): TapAsked => ({
    id: pageTapId(body),
    ...{ tappedAtMs: null, by, from: 'page', corrects: null, withdraws: false, note: '' },
    ...fields,
  });
  if (what === 'undo' || what === 'move') {
    if (burn === undefined || tap === undefined) throw badButton();
    const before = (await watch.burn(siteKey, burn)).taps.find(({ id }) => id === tap);
    if (before === undefined) throw new ServiceError('not_found', `no tap "${tap}" here`);
    const right = { tap: before.tap, corrects: tap } as const;
    const change =
      what === 'undo' ? { ...right, withdraws: true } : { ...right, tappedAtMs: clockMs(doing, body.at) };
    await watch.tap(siteKey, burn, asked(change));
    return;
  }
  const kind = tapKind.safeParse(what);
  if (!kind.success || tap !== undefined) throw badButton();
  if (burn === undefined) await watch.open(siteKey, asked({ tap: kind.data }));
  else await watch.tap(siteKey, burn, asked({ tap: kind.data }));
}

/**
 * Of this button of this page: pressed twice it is one tap, while the same button of another pit is another. The clock time
 * counts where a tap is moved to it.
 */
function pageTapId({ form, do: button, at }: GlanceBody): string {
  const moved = button.startsWith('move ') ? at : '';
  return `page-${createHash('sha256')
    .update(JSON.stringify([form, button, moved]))
    .digest('base64url')}`;
}

async function answerAll({ watch, viewer }: Doing, { messages }: GlanceBody, by: string): Promise<void> {
  for (const id of messages.split(' ').filter((one) => one !== '')) {
    await watch.answer(viewer, id, 'got-it', by, 'page', null);
  }
}

/** The last time that the site's clocks showed it. */
function clockMs({ timeZone, nowMs }: Doing, clock: string): number {
  if (clock === '') throw badAt();
  const today = localDateAt(nowMs, timeZone);
  const ms = clockTimeMs(today, clock, timeZone);
  return ms > nowMs + AHEAD_MS ? clockTimeMs(addDays(today, -1), clock, timeZone) : ms;
}

const bad = (path: string, message: string): ServiceError =>
  new ServiceError('bad_body', `${path}: ${message}`, { facts: { faults: [{ path, message }] } });
const badButton = (): ServiceError => bad('do', 'expected a button of the page');
const badAt = (): ServiceError => bad('at', 'expected the clock time at which it was');
