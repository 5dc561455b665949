// Findings laid over each other: at every instant the worst wins, and every finding is kept.

import { type Finding, SEVERITY, type Verdict } from '#core/rules/finding.ts';
import type { Span } from '#core/units/time.ts';

/** A longest run of one verdict, with everything found within it, gravest first. */
export interface Window extends Span {
  readonly verdict: Verdict;
  readonly findings: readonly Finding[];
}

/**
 * Windows that tile `span` without gap or overlap. An instant is go only where `within-limits` covers it and no hold
 * or stop does; without either it is hold.
 */
export function findWindows(found: readonly Finding[], span: Span): Window[] {
  const byTime = found.filter((f) => !Number.isNaN(f.fromMs)).sort((a, b) => a.fromMs - b.fromMs);
  const grades = (['stop', 'hold', 'go'] as const).map((verdict) =>
    byTime.filter((f) => f.verdict === verdict),
  );
  // Runs follow on each other: what ended before one touches none of the later ones.
  const ended = [0, 0, 0];
  return verdictRuns(found, span).map(({ verdict, fromMs, toMs }) => {
    const findings: Finding[] = [];
    for (let g = 0; g < grades.length; g += 1) {
      const grade = grades[g] as Finding[];
      let i = ended[g] as number;
      while (i < grade.length && (grade[i] as Finding).toMs <= fromMs) i += 1;
      ended[g] = i;
      for (; i < grade.length; i += 1) {
        const f = grade[i] as Finding;
        if (f.fromMs >= toMs) break;
        if (f.toMs > fromMs) findings.push(f);
      }
    }
    return { fromMs, toMs, verdict, findings };
  });
}

interface VerdictRun extends Span {
  readonly verdict: Verdict;
}

function verdictRuns(found: readonly Finding[], span: Span): VerdictRun[] {
  const runs: VerdictRun[] = [];
  if (!(span.fromMs < span.toMs)) return runs;
  // How many findings cover the instant: [met, hold, stop].
  const covering = [0, 0, 0];
  let { fromMs } = span;
  for (const edge of edgesWithin(found, span)) {
    const ms = Math.floor(edge / EDGE_KINDS);
    const kind = edge - ms * EDGE_KINDS;
    if (ms > fromMs) {
      append(runs, fromMs, ms, verdictOf(covering));
      fromMs = ms;
    }
    covering[kind >> 1] = (covering[kind >> 1] as number) + (kind & 1 ? 1 : -1);
  }
  if (fromMs < span.toMs) append(runs, fromMs, span.toMs, verdictOf(covering));
  return runs;
}

/** An edge is one number, instant × 6 + severity × 2 + (begins ? 1 : 0), so that the sort compares plain numbers. */
const EDGE_KINDS = 6;

/** Memory for edges, used and done with inside of one call: making it anew would cost more than the work. */
let scratch = new Float64Array(1024);

function edgesWithin(found: readonly Finding[], span: Span): Float64Array {
  if (scratch.length < found.length * 2) scratch = new Float64Array(found.length * 4);
  const edges = scratch;
  let count = 0;
  for (const f of found) {
    const kind = SEVERITY[f.verdict];
    if (kind === 0 && f.code !== 'within-limits') continue;
    // Whole milliseconds, outward for what bars and inward for what is met.
    const fromMs = Math.max(kind === 0 ? Math.ceil(f.fromMs) : Math.floor(f.fromMs), span.fromMs);
    const toMs = Math.min(kind === 0 ? Math.floor(f.toMs) : Math.ceil(f.toMs), span.toMs);
    if (!(fromMs < toMs)) continue;
    edges[count] = fromMs * EDGE_KINDS + kind * 2 + 1;
    edges[count + 1] = toMs * EDGE_KINDS + kind * 2;
    count += 2;
  }
  return edges.subarray(0, count).sort();
}

function verdictOf(covering: readonly number[]): Verdict {
  if ((covering[2] as number) > 0) return 'stop';
  return (covering[1] as number) > 0 || covering[0] === 0 ? 'hold' : 'go';
}

function append(runs: VerdictRun[], fromMs: number, toMs: number, verdict: Verdict): void {
  const last = runs.at(-1);
  if (last?.verdict === verdict) runs[runs.length - 1] = { ...last, toMs };
  else runs.push({ fromMs, toMs, verdict });
}

/** What touches a span, in the order given. */
const findingsWithin = (found: readonly Finding[], run: Span): Finding[] =>
  found.filter((f) => f.fromMs < run.toMs && f.toMs > run.fromMs);

/** The window that covers an instant; null where none does: then nobody can say, and it is no go. */
export function windowAt(windows: readonly Window[], ms: number): Window | null {
  return windows.find((w) => w.fromMs <= ms && ms < w.toMs) ?? null;
}

/** Windows cut to a span; findings that no longer touch a cut window are dropped. */
export function cutWindows(windows: readonly Window[], span: Span): Window[] {
  const cut: Window[] = [];
  for (const w of windows) {
    if (w.fromMs >= span.fromMs && w.toMs <= span.toMs) {
      cut.push(w);
      continue;
    }
    const run = { fromMs: Math.max(w.fromMs, span.fromMs), toMs: Math.min(w.toMs, span.toMs) };
    if (run.fromMs < run.toMs)
      cut.push({ verdict: w.verdict, ...run, findings: findingsWithin(w.findings, run) });
  }
  return cut;
}
