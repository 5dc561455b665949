// One notice, judged once more: what stands now. Worse as soon as it has been true for its hold time, better only when
// that has lasted, unknown never better. Whether anybody is told is not decided here.

import type { Verdict } from '#core/rules/finding.ts';
import type { Condition } from '#core/watch/condition.ts';
import { type Notice, type NoticePhase, noticeKey } from './notice.ts';
import type { NoticeSettings } from './notice-settings.ts';
import { onThisClock } from './on-this-clock.ts';
import { rank, worse } from './rank.ts';

/** Null where there is nothing to remember: it is not true, and was not. */
export function stepNotice(
  before: Notice | null,
  site: string,
  condition: Condition,
  nowMs: number,
  settings: NoticeSettings,
): Notice | null {
  if (before === null && condition.truth !== 'true') return null;
  const was = onThisClock(before ?? fresh(site, condition, nowMs), nowMs, settings);
  if (condition.truth === 'unknown') return unknown(was, nowMs, settings);
  const level = condition.truth === 'true' ? condition.verdict : null;
  return withPhase(easing(rising(turning(was, condition, level, nowMs, settings), settings)), was);
}

const fresh = (site: string, condition: Condition, nowMs: number): Notice => ({
  key: noticeKey(site, condition),
  site,
  episode: '',
  phase: 'quiet',
  sinceMs: nowMs,
  raisedAtMs: null,
  number: 0,
  standing: null,
  told: null,
  condition,
  level: null,
  trueSinceMs: null,
  lastTrueMs: nowMs,
  betterSinceMs: null,
  betterWorst: null,
  turnsMs: [],
  unsteadyUntilMs: null,
  unsteadyTold: false,
  unsureTold: false,
  overAtMs: null,
  returns: 0,
  steppedAtMs: nowMs,
  acknowledgedAtMs: null,
  acknowledgedBy: null,
});

/** What is pending stays so, what was getting better has to begin anew, and quiet is not counted. */
function unknown(was: Notice, nowMs: number, settings: NoticeSettings): Notice {
  const unsteadyUntilMs = was.unsteadyUntilMs === null ? null : nowMs + quietMs(was, settings);
  const next = { ...was, betterSinceMs: null, betterWorst: null, unsteadyUntilMs, steppedAtMs: nowMs };
  return was.standing === null || was.phase === 'unsure'
    ? next
    : { ...next, phase: 'unsure', sinceMs: nowMs };
}

/** What was seen now, and whether that is a turn. */
function turning(
  was: Notice,
  condition: Condition,
  level: Verdict | null,
  nowMs: number,
  settings: NoticeSettings,
): Notice {
  const turned = level !== was.level;
  const turnsMs = [...was.turnsMs, ...(turned ? [nowMs] : [])].filter(
    (turnMs) => turnMs >= nowMs - settings.unsteadyWithinMs,
  );
  const seen: Notice = {
    ...was,
    condition,
    level,
    trueSinceMs: level === null ? null : (was.trueSinceMs ?? nowMs),
    lastTrueMs: level === null ? was.lastTrueMs : nowMs,
    steppedAtMs: nowMs,
    turnsMs,
  };
  const { unsteadyUntilMs } = was;
  if (unsteadyUntilMs === null) {
    // News that comes and goes is no danger.
    const many = turned && turnsMs.length >= settings.unsteadyTurns && condition.verdict !== 'go';
    return many ? { ...seen, unsteadyUntilMs: nowMs + quietMs(was, settings) } : seen;
  }
  if (turned) return { ...seen, unsteadyUntilMs: nowMs + quietMs(was, settings) };
  return nowMs < unsteadyUntilMs ? seen : { ...seen, unsteadyUntilMs: null, turnsMs: [] };
}

/** Worse: at once where it has been true for its hold time; a hold where it comes and goes before that. */
function rising(n: Notice, settings: NoticeSettings): Notice {
  const { level, steppedAtMs: nowMs, trueSinceMs } = n;
  // A hold time that is no number is none.
  const held = trueSinceMs !== null && !(nowMs - trueSinceMs < n.condition.holdsForMs);
  const demanded = held ? level : null;
  const standing = n.unsteadyUntilMs === null ? demanded : worse(demanded, 'hold');
  if (rank(standing) <= rank(n.standing)) return n;
  const risen = { ...n, standing, betterSinceMs: null, betterWorst: null };
  return n.standing === null ? begun(risen, settings) : risen;
}

/** A new episode. One that follows so soon upon the last is unsteady from its beginning. */
function begun(n: Notice, settings: NoticeSettings): Notice {
  const { steppedAtMs: nowMs, overAtMs, condition } = n;
  const soon = overAtMs !== null && nowMs - overAtMs <= settings.backWithinMs && condition.verdict !== 'go';
  const returns = soon ? n.returns + 1 : 0;
  return {
    ...n,
    // Named by its beginning, and never as the one before, whatever the clock does.
    episode: String(Math.max(nowMs, Number(n.episode || 0) + 1)),
    number: 0,
    raisedAtMs: null,
    told: null,
    unsteadyTold: false,
    unsureTold: false,
    acknowledgedAtMs: null,
    acknowledgedBy: null,
    returns,
    unsteadyUntilMs: soon ? nowMs + quietMs({ returns }, settings) : n.unsteadyUntilMs,
  };
}

const quietMs = ({ returns }: Pick<Notice, 'returns'>, { unsteadyQuietMs }: NoticeSettings): number =>
  unsteadyQuietMs * 2 ** Math.min(returns, 2);

/** Better: when it has been so for its time, to the worst of that time. */
function easing(n: Notice): Notice {
  const { level, standing, steppedAtMs: nowMs } = n;
  if (standing === null || rank(level) >= rank(standing)) {
    return { ...n, betterSinceMs: null, betterWorst: null };
  }
  const betterSinceMs = n.betterSinceMs ?? nowMs;
  const betterWorst = n.betterSinceMs === null ? level : worse(n.betterWorst, level);
  const held = nowMs - betterSinceMs >= n.condition.clearsForMs;
  if (!held || n.unsteadyUntilMs !== null) return { ...n, betterSinceMs, betterWorst };
  const stillBetter = rank(level) < rank(betterWorst);
  return {
    ...n,
    standing: betterWorst,
    betterSinceMs: stillBetter ? nowMs : null,
    betterWorst: stillBetter ? level : null,
  };
}

function withPhase(n: Notice, { phase }: Notice): Notice {
  const now = phaseOf(n);
  return now === phase ? n : { ...n, phase: now, sinceMs: n.steppedAtMs };
}

function phaseOf({ standing, level }: Notice): NoticePhase {
  if (standing === null) return level === null ? 'quiet' : 'pending';
  return level === null ? 'clearing' : 'raised';
}
