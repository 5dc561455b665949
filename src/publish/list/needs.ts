// Which sites need somebody, and why: the exceptions that an office must not look for. Gravest first.

import { sinceEvening } from '#core/notices/day-texts.ts';
import type { Notice } from '#core/notices/notice.ts';
import type { PlanChange } from '#core/plan/diff-plans.ts';
import { SEVERITY, type Verdict, worseOf } from '#core/rules/finding.ts';
import type { Burn } from '#core/watch/burn.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { EveningSeen, StoodUnlit } from '#publish/list-desk.ts';
import { NEED_CODES, type NeedCode } from '#publish/page/needs-line.ts';
import type { Mark } from '#publish/page/standing.ts';
import { liveMark, worseMark } from '#publish/page/with-live.ts';
import type { ForecastState } from '#publish/wire.ts';
import type { SiteDigest } from './site-digest.ts';

export interface Facts {
  readonly site: DeskSite;
  readonly digest: SiteDigest;
  readonly freshness: ForecastState['state'];
  readonly burn: Burn | null;
  /** What the last look found where nothing burns; null: nothing that bars a go. */
  readonly stood: StoodUnlit | null;
  /** Those that are not over. */
  readonly notices: readonly Notice[];
  readonly evening: EveningSeen | null;
  /** Names of those whom a text that still matters did not reach. */
  readonly undelivered: readonly string[];
}

export interface Judged extends Facts {
  readonly needs: readonly NeedCode[];
  /** As the list shows them: while a fire burns and from light-up on, today says no go that the watch does not say. */
  readonly marks: Readonly<Record<'today' | 'tomorrow', Mark>>;
  /** What is another than the evening text said; empty: the same, or none was sent. */
  readonly changes: readonly PlanChange[];
}

/** The cover is due, or the dusk comes. */
const UNCOVERED: ReadonlySet<string> = new Set(['cover-due', 'not-covered-by-dusk']);

export function judged(facts: Facts, nowMs: number): Judged {
  const changes = changesOf(facts, nowMs);
  return { ...facts, changes, needs: needsOf(facts, changes, nowMs), marks: marksOf(facts, nowMs) };
}

/** Told to answer, and nobody has. */
export const isUnanswered = ({ told, standing, raisedAtMs, acknowledgedAtMs }: Notice): boolean =>
  raisedAtMs !== null && standing !== null && told !== null && told !== 'go' && acknowledgedAtMs === null;

function needsOf(facts: Facts, changes: readonly PlanChange[], nowMs: number): NeedCode[] {
  const { burn, notices, freshness, digest } = facts;
  const found = new Set<NeedCode>();
  if (burn !== null) {
    const stands = standsAt(facts);
    if (stands !== 'go') found.add(stands === 'stop' ? 'burn-stop' : 'burn-hold');
    const isDue = digest.today?.coveredByMs != null && nowMs >= digest.today.coveredByMs;
    const isTold = notices.some(
      ({ condition, standing }) => standing !== null && UNCOVERED.has(condition.code),
    );
    if (isDue || isTold) found.add('not-covered');
  }
  if (facts.undelivered.length > 0) found.add('undelivered');
  if (notices.some(isUnanswered)) found.add('unanswered');
  if (freshness === 'none' || digest.today === null) found.add('no-forecast');
  else if (freshness === 'stale') found.add('stale');
  else if (digest.today.mark === 'unsaid' || digest.tomorrow?.mark === 'unsaid') found.add('cannot-say');
  if (changes.some(({ kind }) => kind === 'verdict')) found.add('verdict-changed');
  return NEED_CODES.filter((code) => found.has(code));
}

/** A day that nothing is known of is one that nobody can say anything about. */
function marksOf(facts: Facts, nowMs: number): Judged['marks'] {
  const { digest } = facts;
  const [today, tomorrow] = [digest.today?.mark ?? 'unsaid', digest.tomorrow?.mark ?? 'unsaid'];
  const stands = facts.burn === null ? unlitMark(facts, nowMs) : standsAt(facts);
  return { today: stands === 'go' ? today : worseMark(today, stands), tomorrow };
}

/** From light-up on what was found counts where it is worse than the plan of this moment. */
function unlitMark({ stood, digest }: Facts, nowMs: number): Mark {
  const lightUpMs = digest.today?.summary.times?.lightUp ?? null;
  const counts = stood !== null && lightUpMs !== null && nowMs >= lightUpMs;
  return counts && SEVERITY[stood.verdict] > SEVERITY[digest.nowVerdict ?? 'hold'] ? liveMark(stood) : 'go';
}

/** The worse of the plan at this moment and of what was told; where nobody can say, hold. */
const standsAt = ({ digest, notices }: Facts): Verdict =>
  notices.map(({ standing }) => standing ?? 'go').reduce(worseOf, digest.nowVerdict ?? 'hold');

function changesOf({ digest, evening }: Facts, nowMs: number): readonly PlanChange[] {
  const day = [digest.today, digest.tomorrow].find((one) => one !== null && one.date === evening?.day.date);
  if (!day || evening === null) return [];
  return sinceEvening(evening.day, day.summary, nowMs) ?? [];
}

/** Marks of a day, worst for the office first. */
const ORDER: Readonly<Record<Mark, number>> = { unsaid: 0, stop: 1, hold: 2, go: 3 };

/** Lower comes first. A fire that needs nobody stands behind all that needs somebody. */
function rankOf({ needs, burn, marks: { today, tomorrow }, site }: Judged): number {
  const [first] = needs;
  const need = first === undefined ? NEED_CODES.length + (burn === null ? 1 : 0) : NEED_CODES.indexOf(first);
  return need * 10 + Math.min(ORDER[today], ORDER[tomorrow]) * 2 + (site.state.fault === null ? 1 : 0);
}

/** The same order at every asking: by need, then by name, then by id. */
export function sorted<T extends Judged>(all: readonly T[]): T[] {
  const keyed = all.map((one) => ({ one, rank: rankOf(one), name: one.site.name.toLowerCase() }));
  keyed.sort((a, b) => a.rank - b.rank || compare(a.name, b.name) || compare(a.one.site.id, b.one.site.id));
  return keyed.map(({ one }) => one);
}

function compare(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
