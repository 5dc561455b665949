// All notices of a site, judged once more: the notices as they are now, and what is to be told of them. Pure, and the
// same again for the same: whoever is killed before it was kept, or comes second, makes the same of what is kept.

import type { Condition, ConditionCode } from '#core/watch/condition.ts';
import { TOLD_BY } from './codes.ts';
import { type Notice, noticeKey, type Transition } from './notice.ts';
import { NOTICE_SETTINGS, type NoticeSettings } from './notice-settings.ts';
import { rank } from './rank.ts';
import { stepNotice } from './step-notice.ts';
import { type Telling, tellNotice, withdrawNotice } from './tell-notice.ts';

/**
 * What it means that a known notice is not among the conditions. false: all that is true of its code is listed, so this is
 * no longer. unknown: its code could not be judged in full. dropped: its code is not watched any more (settings changed,
 * the site is gone).
 */
export type Unlisted = 'false' | 'unknown' | 'dropped';

export interface NoticeStep {
  readonly site: string;
  /** As kept; those that have been quiet for hours may be left out. */
  readonly notices: readonly Notice[];
  readonly conditions: readonly Condition[];
  readonly unlisted: (code: ConditionCode) => Unlisted;
  readonly burnOpen: boolean;
  /** Keys of those that are told once more where nothing else of them is to be told. */
  readonly again?: ReadonlySet<string>;
  readonly nowMs: number;
  readonly settings?: NoticeSettings;
}

export interface SteppedNotices {
  /** By key. Those that did not change are the same objects as were given. */
  readonly notices: readonly Notice[];
  readonly transitions: readonly Transition[];
}

const NONE: ReadonlySet<string> = new Set();

export function stepNotices(step: NoticeStep): SteppedNotices {
  const { site, nowMs, again = NONE, settings = NOTICE_SETTINGS } = step;
  const before = new Map(step.notices.map((n) => [n.key, n]));
  const listed = new Map(worstFirst(step.conditions).map((c) => [noticeKey(site, c), c]));
  const stepped: Notice[] = [];
  const tellings: Telling[] = [];
  for (const key of [...new Set([...before.keys(), ...listed.keys()])].sort()) {
    const was = before.get(key) ?? null;
    const condition = listed.get(key) ?? (was && unlistedCondition(was, step));
    if (condition === null) {
      if (was !== null)
        tellings.push(isSettled(was) ? { notice: was, transition: null } : withdrawNotice(was, nowMs));
      continue;
    }
    if (was !== null && condition.truth !== 'true' && isSettled(was)) {
      tellings.push({ notice: was, transition: null });
      continue;
    }
    const now = stepNotice(was, site, condition, nowMs, settings);
    if (now !== null) stepped.push(now);
  }
  const stopStands = stepped.some((n) => n.told === 'stop' && n.standing === 'stop');
  for (const n of stepped) {
    const inhibited = stopStands && TOLD_BY[n.condition.code].mutedByStop;
    tellings.push(tellNotice(n, { burnOpen: step.burnOpen, inhibited, again: again.has(n.key), settings }));
  }
  return {
    notices: tellings.map(({ notice }) => notice).sort((a, b) => (a.key < b.key ? -1 : 1)),
    transitions: tellings.flatMap(({ transition }) => (transition === null ? [] : [transition])),
  };
}

/** Of two conditions with the same key the worse one stands last, and counts. */
const worstFirst = (conditions: readonly Condition[]): Condition[] =>
  conditions.toSorted((a, b) => weight(a) - weight(b));

const weight = ({ truth, verdict }: Condition): number =>
  truth === 'true' ? 10 + rank(verdict) : Number(truth === 'unknown');

function unlistedCondition({ condition }: Notice, { unlisted }: NoticeStep): Condition | null {
  const means = unlisted(condition.code);
  return means === 'dropped' ? null : { ...condition, truth: means };
}

/** Quiet, and false when last seen: judged false or unknown once more it stays as it is. */
const isSettled = (n: Notice): boolean => n.phase === 'quiet' && n.level === null;
