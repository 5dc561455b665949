// A notice's times after what the clock did since it was last judged. A clock that was set back keeps how long things
// have lasted; one that leapt, or a pause in which nobody looked, counts little towards anything better, and in full
// towards telling something worse.

import type { Notice } from './notice.ts';
import type { NoticeSettings } from './notice-settings.ts';

export function onThisClock(notice: Notice, nowMs: number, { unseenCountsMs }: NoticeSettings): Notice {
  const passedMs = nowMs - notice.steppedAtMs;
  if (passedMs >= 0 && passedMs <= unseenCountsMs) return notice;
  const backMs = Math.min(0, passedMs);
  const uncountedMs = passedMs < 0 ? passedMs : passedMs - unseenCountsMs;
  return {
    ...notice,
    sinceMs: notice.sinceMs + backMs,
    trueSinceMs: moved(notice.trueSinceMs, backMs),
    lastTrueMs: notice.lastTrueMs + backMs,
    turnsMs: notice.turnsMs.map((turnMs) => turnMs + backMs),
    overAtMs: moved(notice.overAtMs, backMs),
    betterSinceMs: moved(notice.betterSinceMs, uncountedMs),
    unsteadyUntilMs: moved(notice.unsteadyUntilMs, uncountedMs),
    steppedAtMs: nowMs,
  };
}

const moved = (ms: number | null, byMs: number): number | null => (ms === null ? null : ms + byMs);
