import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Finding, finding, SEVERITY, type Verdict } from '#core/rules/finding.ts';
import { cutWindows, findWindows, type Window, windowAt } from '#core/windows/find-windows.ts';

const SPAN = { fromMs: 0, toMs: 100 };
const met = (fromMs: number, toMs: number) => finding('within-limits', 'go', { fromMs, toMs }, {});
const hold = (fromMs: number, toMs: number) =>
  finding('warming-up', 'hold', { fromMs, toMs }, { warmUpMin: 10 });
const stop = (fromMs: number, toMs: number) => finding('off-shift', 'stop', { fromMs, toMs }, {});
const advice = (fromMs: number, toMs: number) =>
  finding('forecast-aging', 'go', { fromMs, toMs }, { ageMin: 500, warnAfterMin: 480 });
const runs = (windows: readonly Window[]) => windows.map((w) => `${w.verdict} ${w.fromMs}-${w.toMs}`);

describe('windows', () => {
  it('have at every instant the worst of what covers it', () => {
    expect(runs(findWindows([met(0, 100), hold(10, 50), stop(30, 40)], SPAN))).toEqual([
      'go 0-10',
      'hold 10-30',
      'stop 30-40',
      'hold 40-50',
      'go 50-100',
    ]);
  });

  it('are go only where every limit was met: without a finding, and with advice alone, they are hold', () => {
    expect(runs(findWindows([], SPAN))).toEqual(['hold 0-100']);
    expect(runs(findWindows([advice(0, 100)], SPAN))).toEqual(['hold 0-100']);
    expect(runs(findWindows([met(20, 60), advice(0, 100)], SPAN))).toEqual([
      'hold 0-20',
      'go 20-60',
      'hold 60-100',
    ]);
  });

  it('join runs of one verdict, whatever the findings behind them', () => {
    expect(runs(findWindows([met(0, 100), hold(10, 20), hold(20, 30), hold(25, 40)], SPAN))).toEqual([
      'go 0-10',
      'hold 10-40',
      'go 40-100',
    ]);
  });

  it('keep every finding that touches them, gravest first, then by time', () => {
    const [window] = findWindows(
      [met(0, 100), advice(0, 100), hold(20, 30), hold(0, 100), stop(0, 100)],
      SPAN,
    );
    expect(window?.findings.map((f) => `${f.verdict} ${f.fromMs}`)).toEqual([
      'stop 0',
      'hold 0',
      'hold 20',
      'go 0',
      'go 0',
    ]);
  });

  it('pass over findings that are empty, reversed or beyond the span', () => {
    expect(runs(findWindows([met(0, 100), stop(50, 50), stop(60, 40), stop(200, 300)], SPAN))).toEqual([
      'go 0-100',
    ]);
  });

  it('are not broken by findings that reach beyond the span', () => {
    expect(runs(findWindows([met(-50, 500), hold(-10, 10), stop(90, 110)], SPAN))).toEqual([
      'hold 0-10',
      'go 10-90',
      'stop 90-100',
    ]);
  });

  it('of an empty span are none', () => {
    expect(findWindows([met(0, 100)], { fromMs: 5, toMs: 5 })).toEqual([]);
  });
});

describe('an instant', () => {
  const windows = findWindows([met(0, 100), hold(40, 60)], SPAN);
  it('on an edge belongs to the window that begins there', () => {
    expect([39, 40, 59, 60].map((ms) => windowAt(windows, ms)?.verdict)).toEqual([
      'go',
      'hold',
      'hold',
      'go',
    ]);
  });
  it('outside of all windows has none', () => {
    expect([windowAt(windows, -1), windowAt(windows, 100)]).toEqual([null, null]);
  });
});

describe('windows cut to a span', () => {
  it('keep their verdicts and lose findings that no longer touch them', () => {
    const cut = cutWindows(findWindows([met(0, 100), hold(10, 20), hold(20, 60)], SPAN), {
      fromMs: 30,
      toMs: 80,
    });
    expect(runs(cut)).toEqual(['hold 30-60', 'go 60-80']);
    expect(cut[0]?.findings.map((f) => `${f.code} ${f.fromMs}`)).toEqual([
      'warming-up 20',
      'within-limits 0',
    ]);
  });
});

describe('whatever the findings', () => {
  const time = fc.integer({ min: -20, max: 120 });
  const any: fc.Arbitrary<Finding> = fc
    .tuple(fc.constantFrom(met, hold, stop, advice), time, time)
    .map(([make, fromMs, toMs]) => make(fromMs, toMs));

  it('windows tile the span without gap or overlap, differ from their neighbours, and say the worst at each instant', () => {
    fc.assert(
      fc.property(fc.array(any, { maxLength: 15 }), (findings) => {
        const windows = findWindows(findings, SPAN);
        expect(windows[0]?.fromMs).toBe(0);
        expect(windows.at(-1)?.toMs).toBe(100);
        for (const [i, w] of windows.entries()) {
          expect(w.toMs).toBeGreaterThan(w.fromMs);
          if (i > 0) {
            expect(w.fromMs).toBe(windows[i - 1]?.toMs);
            expect(w.verdict).not.toBe(windows[i - 1]?.verdict);
          }
        }
        for (let t = 0; t < 100; t += 1) {
          const covering = findings.filter((f) => f.fromMs <= t && t < f.toMs);
          const worst = covering.reduce<Verdict>(
            (v, f) => (SEVERITY[f.verdict] > SEVERITY[v] ? f.verdict : v),
            'go',
          );
          const judged = covering.some((f) => f.code === 'within-limits');
          expect(windowAt(windows, t)?.verdict).toBe(worst === 'go' && !judged ? 'hold' : worst);
        }
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});
