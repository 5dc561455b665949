import { afterAll, describe, expect, it } from 'vitest';
import { makePlan, type PlanInput } from '#core/plan/make-plan.ts';
import { addDays, clockTimeMs, localDateAt } from '#core/units/local-time.ts';
import { cutWindows } from '#core/windows/find-windows.ts';
import { DEMO_CELLS } from '#demo/cells.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import type { ForecastSource, Pulled } from '#sources/source.ts';
import { DEMO_CONFIG, dayOf, demoSite } from './demo-plans.ts';
import { useStandIn, ZONE } from './use-stand-in.ts';

const standIn = useStandIn();
const opened: ForecastSource[] = [];
afterAll(() => Promise.all(opened.map((source) => source.close())));

/** The program's own source, put on the stand-in; a retry would not wait, and none is needed. */
function openSource(): { source: ForecastSource; warnings: string[] } {
  const warnings: string[] = [];
  const source = createNwsSource({
    pace: null,
    baseUrl: standIn.baseUrl(),
    contact: DEMO_CONFIG.contact,
    nowMs: standIn.nowMs,
    sleep: () => Promise.resolve(),
    random: () => 0.5,
    log: { info: () => undefined, warn: (_, message) => void warnings.push(message) },
  });
  opened.push(source);
  return { source, warnings };
}

function planTomorrow(siteId: string, { forecast, alerts }: Pulled) {
  const nowMs = standIn.nowMs();
  const input: PlanInput = {
    ...demoSite(siteId),
    forecast,
    alerts,
    nowMs,
    firstDate: addDays(localDateAt(nowMs, ZONE), 1),
    dayCount: 1,
  };
  return makePlan(input);
}

describe('the stand-in, pulled by the source that the program uses', () => {
  it.each(DEMO_CELLS)('gives $siteId its cell, zones and a forecast without a fault', async (cell) => {
    standIn.at('2026-11-24', '17:05');
    const { source, warnings } = openSource();
    const { point, forecast, alerts } = await source.pull(cell.place);
    expect(warnings).toEqual([]);
    expect(point.cell).toBe(`XXV ${cell.gridX},${cell.gridY}`);
    expect(point.timeZone).toBe(cell.timeZone);
    expect(point.zones).toEqual([
      { kind: 'forecast', code: cell.forecastZone },
      { kind: 'county', code: cell.county },
      { kind: 'fire', code: cell.fireZone },
    ]);
    expect(forecast.faults).toEqual([]);
    expect(alerts.complete).toBe(true);
    expect(alerts.alerts.map((a) => a.event)).toEqual(
      cell.siteId === 'ridge-block' ? ['Red Flag Warning', 'Red Flag Warning'] : [],
    );
  });

  it.each(['00:00', '09:30', '14:41', '21:50', '23:59'])(
    'at %s: stops ridge block tomorrow by the Red Flag Warning, certain to be ours, over the whole shift',
    async (time) => {
      standIn.at('2026-11-24', time);
      const ridge = DEMO_CELLS.find((c) => c.siteId === 'ridge-block');
      if (!ridge) throw new Error('no ridge block');
      const plan = planTomorrow(ridge.siteId, await openSource().source.pull(ridge.place));
      const { day, verdict } = dayOf(plan, 0);
      const shift = {
        fromMs: clockTimeMs(day.date, '07:00', ZONE),
        toMs: clockTimeMs(day.date, '17:00', ZONE),
      };
      expect(verdict).toBe('stop');
      const [window, ...more] = cutWindows(plan.windows, shift);
      expect(more).toEqual([]);
      expect(window?.verdict).toBe('stop');
      const warnings = plan.findings.filter((f) => f.code === 'official-alert' && f.fromMs <= shift.fromMs);
      const ours = warnings.filter((f) => f.toMs >= shift.toMs);
      expect(ours).toMatchObject([
        { verdict: 'stop', figures: { event: 'Red Flag Warning', possible: false } },
      ]);
    },
  );

  it('says go at north block tomorrow, and lets the same grid stand within the hour', async () => {
    standIn.at('2026-11-24', '17:05');
    const [north] = DEMO_CELLS;
    if (!north) throw new Error('no north block');
    const { source } = openSource();
    const first = await source.pull(north.place);
    expect(dayOf(planTomorrow(north.siteId, first), 0).verdict).toBe('go');
    standIn.later(20 * 60_000);
    const again = await source.pull(north.place);
    expect(again.forecast.documentId).toBe(first.forecast.documentId);
    standIn.later(60 * 60_000);
    const next = await source.pull(north.place);
    expect(next.forecast.documentId).not.toBe(first.forecast.documentId);
    expect(next.forecast.issuedAtMs).toBe((first.forecast.issuedAtMs ?? 0) + 3_600_000);
  });

  it('has no forecast for a place far away', async () => {
    const { source } = openSource();
    await expect(source.pull({ latDeg: 40, lonDeg: -100 })).rejects.toMatchObject({
      code: 'outside_coverage',
    });
  });
});
