// The verdict of a day that has no time to light, or none any more.

import type { FindingCode, Verdict } from '#core/rules/finding.ts';
import { intersect, overlaps, type Span, subtract } from '#core/units/time.ts';
import type { Window } from '#core/windows/find-windows.ts';

interface Summary {
  readonly verdict: Verdict;
  readonly cannotSay: boolean;
}

/**
 * Once the day's burn has begun, hold: too late, a pause, or over. Without a burn the verdict of most of the working time
 * that is left. A stop that lasts now (`now`: the day's window of this moment) is stop in both cases, but for the dark and
 * the rest before work: as at dawn, the day's answer is the answer.
 */
export function verdictWithoutLight(
  windows: readonly Window[],
  working: readonly Span[],
  now: Window | null,
  hadBurn: boolean,
): Summary {
  const counts = hadBurn || working.some((span) => now !== null && overlaps(span, now));
  if (now?.verdict === 'stop' && counts) return { verdict: 'stop', cannotSay: false };
  if (hadBurn) return { verdict: 'hold', cannotSay: false };
  return ofMostOf(windows, stillAhead(working, now));
}

/** The working time from the window of this moment on, so that it changes with the windows; all of it where none is left. */
function stillAhead(working: readonly Span[], now: Window | null): readonly Span[] {
  const fromNow = { fromMs: now?.fromMs ?? Number.NEGATIVE_INFINITY, toMs: Number.POSITIVE_INFINITY };
  const ahead = working.flatMap((span) => intersect(span, fromNow) ?? []);
  return ahead.length > 0 ? ahead : working;
}

/** The verdict of most of the time; a day without working time is a stop. */
function ofMostOf(windows: readonly Window[], working: readonly Span[]): Summary {
  let stopMs = 0;
  let knownHoldMs = 0;
  let unknownHoldMs = 0;
  for (const w of windows) {
    for (const span of working) {
      const part = intersect(w, span);
      if (part === null) continue;
      const lengthMs = part.toMs - part.fromMs;
      const knownMs = w.verdict === 'stop' ? 0 : knownPartMs(w, part);
      if (w.verdict === 'stop') stopMs += lengthMs;
      knownHoldMs += knownMs;
      unknownHoldMs += w.verdict === 'stop' ? 0 : lengthMs - knownMs;
    }
  }
  const verdict = knownHoldMs + unknownHoldMs > stopMs ? 'hold' : 'stop';
  return { verdict, cannotSay: verdict === 'hold' && unknownHoldMs > knownHoldMs };
}

/** Findings that take the ground from under all others. */
const UNTRUSTED: ReadonlySet<FindingCode> = new Set<FindingCode>([
  'forecast-stale',
  'forecast-undated',
  'forecast-future',
  'input-unusable',
]);

/** How much of a hold window has a hold that is known to hold [ms]. */
function knownPartMs(window: Window, part: Span): number {
  // What a forecast says that is not to be trusted is no knowledge.
  if (window.findings.some((f) => UNTRUSTED.has(f.code))) return 0;
  const known = window.findings.filter((f) => f.verdict === 'hold' && !f.unknown);
  const open = subtract(part, known).reduce((sum, s) => sum + s.toMs - s.fromMs, 0);
  return part.toMs - part.fromMs - open;
}
