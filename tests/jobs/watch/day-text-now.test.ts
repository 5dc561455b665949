// A day text is looked at against the plan once more before it goes out.

import { expect, it } from 'vitest';
import { dayTextNow } from '#jobs/watch/day-text-now.ts';
import { dayTextOf } from '#jobs/watch/day-text-of.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { SITE } from '../../builders/notices.ts';
import { clock, WATCH_DATE } from '../../builders/watch.ts';
import { watchInput } from '../../builders/watch-input.ts';

const limits = limitSet([limitOf('windSpeed', { low: { hold: '900 mph' } })]);
const GO = watchInput().plan;
const HOLD = watchInput({ planned: { limits } }).plan;
const NOW_MS = clock('05:00');
const hash = (text: string) => text;

const textOf = (plan: typeof GO) => {
  const due = { site: SITE, date: WATCH_DATE, kind: 'dawn', about: WATCH_DATE } as const;
  const text = dayTextOf({ ...due, dueAtMs: NOW_MS, validUntilMs: clock('08:00') }, plan, [], {
    nowMs: NOW_MS,
    hash,
  });
  if (text === null) throw new Error('the plan does not reach the day');
  return text;
};

const sentBy = (plan: typeof GO, message: ReturnType<typeof textOf>, isDown = false) => {
  const dayTexts = () => (isDown ? Promise.reject(new Error('down')) : Promise.resolve([]));
  const deps = { store: { watch: { dayTexts } }, view: () => ({ plan }), nowMs: () => NOW_MS, hash };
  const log = { info: () => undefined, warn: () => undefined };
  return dayTextNow({ ...deps, log } as unknown as Parameters<typeof dayTextNow>[0], message);
};

it('a go that is no more goes out as what it is now, under the same name', async () => {
  const go = textOf(GO);
  expect(go.verdict).toBe('go');
  const { id, verdict, validUntilMs } = textOf(HOLD);
  expect(verdict).not.toBe('go');
  expect(await sentBy(HOLD, go)).toMatchObject({ id, verdict, validUntilMs, day: { day: { verdict } } });
  expect(await sentBy(HOLD, go, true)).toMatchObject({ verdict, day: { changes: null } });
});

it('what has not changed, and what has become better, goes out as it was made', async () => {
  const [go, hold] = [textOf(GO), textOf(HOLD)];
  expect(await sentBy(GO, go)).toBe(go);
  expect(await sentBy(GO, hold)).toBe(hold);
});

it('without a plan a go waits, and nothing else does', async () => {
  const hold = textOf(HOLD);
  expect(await sentBy(null, textOf(GO))).toBeNull();
  expect(await sentBy(null, hold)).toBe(hold);
});
