import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { localOrders, seasonBans } from '#core/rules/local-orders.ts';
import type { SeasonLimit } from '#core/score/limit.ts';
import type { LocalOrder } from '#core/site/site.ts';
import { addDays } from '#core/units/local-time.ts';
import { one, told } from '../../builders/findings.ts';
import { PLAIN_LIMITS } from '../../builders/limits.ts';
import { contextOf, hasGo, inputOf } from '../../builders/plan.ts';
import { siteWith } from '../../builders/site.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const order = (
  fromMs: number | null,
  toMs: number | null,
  verdict: 'hold' | 'stop' = 'stop',
): LocalOrder => ({
  kind: 'order',
  name: 'county burn ban',
  issuer: 'Testville county fire marshal',
  fromMs,
  toMs,
  verdict,
});
const inputWith = (...orders: LocalOrder[]) => inputOf({ site: siteWith({ orders }) });
const foundFor = (...orders: LocalOrder[]) => localOrders(contextOf(inputWith(...orders)));

describe('local orders', () => {
  it('hold or stop from their beginning to their end, with their issuer', () => {
    expect(told(foundFor(order(at(`${DATE} 09:00`), at(`${DATE} 18:00`), 'hold')), DATE)).toEqual([
      'hold local-order 09:00-18:00',
    ]);
    expect(one(foundFor(order(null, null)), 'local-order').figures).toEqual({
      name: 'county burn ban',
      issuer: 'Testville county fire marshal',
      openEnded: true,
    });
  });

  it('without a beginning have always held; without an end they hold until lifted', () => {
    expect(told(foundFor(order(null, at(`${DATE} 18:00`))), DATE)).toEqual([
      'stop local-order 2026-03-01 00:00-18:00',
    ]);
    expect(told(foundFor(order(at(`${DATE} 09:00`), null)), DATE)).toEqual(['stop local-order 09:00-later']);
    expect(hasGo(makePlan(inputWith(order(null, null))))).toBe(false);
  });

  it('that are over, or yet to come, bar nothing', () => {
    expect(foundFor(order(null, at('2026-02-28 00:00')), order(at('2026-04-01 00:00'), null))).toEqual([]);
  });

  it('whose end does not come after their beginning hold on: an order never vanishes by a slip', () => {
    const nine = at(`${DATE} 09:00`);
    for (const end of [nine, at(`${DATE} 08:00`), at('2025-03-02 18:00'), Number.NaN]) {
      expect(foundFor(order(nine, end)).length, `end ${end}`).toBe(1);
    }
    expect(foundFor(order(Number.NaN, null)).length).toBe(1);
  });
});

describe('season bans', () => {
  const datesBarred = (from: string, to: string, firstDate: string, dayCount: number): string[] => {
    const season: SeasonLimit = { from, to, verdict: 'stop', source: 'county' };
    const input = inputOf({ limits: { ...PLAIN_LIMITS, seasons: [season] }, firstDate, dayCount });
    const context = contextOf(input);
    const dates = seasonBans(context).map(
      (f) => context.calendar.days.find((d) => d.fromMs === f.fromMs)?.date ?? '?',
    );
    return dates.filter((date) => date <= addDays(firstDate, dayCount));
  };

  it('include both their dates (Georgia, 1 May to 30 September; docs/sources.md A.2)', () => {
    expect(datesBarred('05-01', '09-30', '2026-04-30', 1)).toEqual(['2026-05-01']);
    expect(datesBarred('05-01', '09-30', '2026-09-30', 1)).toEqual(['2026-09-29', '2026-09-30']);
  });

  it('may run over the turn of the year', () => {
    expect(datesBarred('12-31', '01-01', '2026-12-31', 2)).toEqual(['2026-12-31', '2027-01-01']);
  });

  it('of one day bar that day', () =>
    expect(datesBarred('03-02', '03-02', '2026-03-02', 1)).toEqual(['2026-03-02']));

  it('from the leap day on begin on the first of March in other years', () => {
    expect(datesBarred('02-29', '03-01', '2026-02-28', 2)).toEqual(['2026-03-01']);
    expect(datesBarred('02-29', '03-01', '2028-02-28', 2)).toEqual(['2028-02-29', '2028-03-01']);
  });

  it('follow the date at the site: Guam is a day ahead', () => {
    const input = inputOf({
      site: siteWith({ timeZone: 'Pacific/Guam', place: { latDeg: 13.5, lonDeg: 144.8 } }),
      limits: {
        ...PLAIN_LIMITS,
        seasons: [{ from: '03-02', to: '03-02', verdict: 'hold', source: 'county' }],
      },
    });
    const [ban] = seasonBans(contextOf(input));
    expect(ban).toMatchObject({
      verdict: 'hold',
      fromMs: at('2026-03-02 00:00', 'Pacific/Guam'),
      toMs: at('2026-03-03 00:00', 'Pacific/Guam'),
    });
  });
});
