// Asks a process again and again, and afterwards holds every answer against the age of the forecast that it was made from.

import { setTimeout } from 'node:timers/promises';
import { MINUTE_MS } from '#core/units/time.ts';

export interface Told {
  readonly site: string;
  readonly kind: 'plan' | 'windows';
  /** When it was asked: the forecast is as old as then, or older, when it answers. */
  readonly askedMs: number;
  readonly status: number;
  /** Of a problem; empty for an answer. */
  readonly code: string;
  readonly isGo: boolean;
  readonly stale: boolean;
  /** Hash of the forecast document. */
  readonly document: string | null;
}

export interface Watch {
  /** All answers so far, in their order. */
  readonly told: readonly Told[];
  /** Ends with the question under way. */
  stop(): Promise<void>;
}

export function watchAnswers(address: string, sites: readonly string[]): Watch {
  const told: Told[] = [];
  let isOver = false;
  const watching = (async () => {
    while (!isOver) {
      for (const site of sites) {
        told.push(await ask(address, site, 'plan'), await ask(address, site, 'windows'));
      }
      await setTimeout(100);
    }
  })();
  // Told to whoever stops it.
  watching.catch(() => undefined);
  return {
    told,
    async stop() {
      isOver = true;
      await watching;
    },
  };
}

interface Body {
  readonly code?: string;
  readonly stale?: boolean;
  readonly verdict?: string;
  readonly windows?: readonly { readonly verdict: string }[];
  readonly madeFrom?: { readonly document: string } | null;
}

async function ask(address: string, site: string, kind: Told['kind']): Promise<Told> {
  const askedMs = Date.now();
  const response = await fetch(`${address}/v1/sites/${site}/${kind}?day=tomorrow`);
  const { code = '', verdict, windows = [], stale = false, madeFrom } = (await response.json()) as Body;
  const isGo = verdict === 'go' || windows.some((w) => w.verdict === 'go');
  const { status } = response;
  return { site, kind, askedMs, status, code, isGo, stale, document: madeFrom?.document ?? null };
}

export interface Truth {
  /** Older than this gives no go [min]. */
  readonly holdAfterMin: number;
  /** When the forecast of a site was made [epoch ms]. */
  madeMs(site: string): number;
  /** Forecast documents in the store. */
  readonly documents: ReadonlySet<string>;
}

/** The answers that should not have been given, in words. */
export function wrongAnswers(told: readonly Told[], truth: Truth): string[] {
  const answered = new Set<string>();
  return told.flatMap((answer) => {
    const why = whyWrong(answer, truth, answered.has(answer.site));
    if (answer.status === 200) answered.add(answer.site);
    return why === null ? [] : [`${answer.site} ${answer.kind}: ${why}`];
  });
}

/** What a process says that has too much to do, or a store that has: no answer, and no go. */
const TOO_BUSY = ['overloaded', 'store_unavailable'];

function whyWrong(
  { site, askedMs, status, code, isGo, stale, document }: Told,
  truth: Truth,
  isAnswered: boolean,
): string | null {
  if (status !== 200) {
    // Before there is a forecast, and never again once there was one.
    const isHonest = status === 503 && (TOO_BUSY.includes(code) || (code === 'no_forecast' && !isAnswered));
    return isHonest ? null : `${status} ${code}`;
  }
  if (document !== null && !truth.documents.has(document)) return 'made from what is not in the store';
  const ageMin = Math.floor((askedMs - truth.madeMs(site)) / MINUTE_MS);
  if (ageMin < truth.holdAfterMin || (!isGo && stale)) return null;
  return `${isGo ? 'go' : 'not called stale'}, with a forecast of ${ageMin} min`;
}
