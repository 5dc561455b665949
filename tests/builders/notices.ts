// Conditions of a site, and the notices that come of a run of them.

import type { Notice, Transition } from '#core/notices/notice.ts';
import type { NoticeSettings } from '#core/notices/notice-settings.ts';
import { stepNotices, type Unlisted } from '#core/notices/step-notices.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { type Condition, type ConditionCode, NO_FIGURES, type Truth } from '#core/watch/condition.ts';

export const SITE = 'fern-hollow/north-block';
/** 2 March 2026, 08:00 at the site. */
export const EIGHT_MS = Date.UTC(2026, 2, 2, 14);

export const conditionOf = (
  code: ConditionCode,
  truth: Truth,
  change: Partial<Condition> = {},
): Condition => ({
  code,
  subject: '',
  truth,
  verdict: 'hold',
  basis: 'observed',
  asOfMs: EIGHT_MS,
  holdsForMs: 0,
  clearsForMs: 10 * MINUTE_MS,
  validUntilMs: EIGHT_MS + 600 * MINUTE_MS,
  figures: NO_FIGURES,
  ...change,
});

export const gust = (truth: Truth, verdict: Verdict = 'hold', change: Partial<Condition> = {}): Condition =>
  conditionOf('observed-beyond-limit', truth, { subject: 'windGust', verdict, ...change });

export const shift = (truth: Truth, verdict: Verdict = 'hold', change: Partial<Condition> = {}): Condition =>
  conditionOf('wind-shifted', truth, { verdict, holdsForMs: 5 * MINUTE_MS, ...change });

export interface Watched {
  readonly notices: readonly Notice[];
  /** Every transition so far. */
  readonly told: readonly Transition[];
  /** `minute kind verdict code`, without those that are only for the record. */
  readonly said: readonly string[];
  step(minute: number, conditions: readonly Condition[], change?: Change): readonly Transition[];
}

interface Change {
  readonly burnOpen?: boolean;
  readonly unlisted?: Unlisted;
  readonly settings?: NoticeSettings;
}

/** A site whose state goes through JSON between any two steps, as it does where each is made by another process. */
export function watched(): Watched {
  let notices: readonly Notice[] = [];
  const told: Transition[] = [];
  return {
    get notices() {
      return notices;
    },
    told,
    get said() {
      return told
        .filter((t) => !t.inhibited)
        .map((t) => `${(t.atMs - EIGHT_MS) / MINUTE_MS} ${t.kind} ${t.verdict} ${t.condition.code}`);
    },
    step(minute, conditions, { burnOpen = true, unlisted = 'dropped', ...settings } = {}) {
      const kept: Notice[] = JSON.parse(JSON.stringify(notices));
      const nowMs = EIGHT_MS + minute * MINUTE_MS;
      const stepped = stepNotices({
        site: SITE,
        notices: kept,
        conditions,
        unlisted: () => unlisted,
        burnOpen,
        nowMs,
        ...settings,
      });
      notices = stepped.notices;
      told.push(...stepped.transitions);
      return stepped.transitions;
    },
  };
}
