// Findings told in one line each, so that a test reads like a list: `hold over-limit 14:00-16:00`.

import type { Finding, FindingCode, FindingOf } from '#core/rules/finding.ts';
import { addDays } from '#core/units/local-time.ts';
import { CHICAGO, clockOf } from './time.ts';

/** A moment as `08:30` on the date told, with its date on the days beside it, and `later` beyond: how far is nobody's promise. */
const clock = (ms: number, date: string, timeZone: string): string => {
  const text = clockOf(ms, timeZone);
  if (text.slice(0, 10) > addDays(date, 1)) return 'later';
  return text.startsWith(date) ? text.slice(11) : text;
};

/** Findings that touch a local date. */
export function told(findings: readonly Finding[], date: string, timeZone = CHICAGO): string[] {
  return findings
    .filter(
      (f) =>
        clockOf(f.toMs - 1, timeZone) >= `${date} 00:00` && clockOf(f.fromMs, timeZone) <= `${date} 23:59`,
    )
    .map((f) => `${f.verdict} ${f.code} ${clock(f.fromMs, date, timeZone)}-${clock(f.toMs, date, timeZone)}`);
}

export const ofCode = <C extends FindingCode>(findings: readonly Finding[], code: C): FindingOf<C>[] =>
  findings.filter((f): f is FindingOf<C> & Finding => f.code === code);

/** The first finding with a code (that begins at `fromMs`, where given); throws where there is none. */
export function one<C extends FindingCode>(
  findings: readonly Finding[],
  code: C,
  fromMs?: number,
): FindingOf<C> {
  const first = ofCode(findings, code).find((f) => fromMs === undefined || f.fromMs === fromMs);
  if (!first) throw new Error(`no finding ${code} in ${findings.map((f) => f.code).join()}`);
  return first;
}
