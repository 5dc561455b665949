// What calendars were told, on either database: one of two who tell otherwise at the same moment is sent back to look again.

import { expect, it } from 'vitest';
import type { CalendarWindow } from '#core/plan/calendar-windows.ts';
import { DAY_MS } from '#core/units/time.ts';
import { NOON_MS, onEachStore } from './on-each-store.ts';

const window = (number: number, change: Partial<CalendarWindow> = {}): CalendarWindow => ({
  ...{ site: 'own/a', date: '2026-03-02', number, uid: `uid-${number}`, sequence: 0, cancelled: false },
  ...{ fromMs: NOON_MS, toMs: NOON_MS + 3_600_000, changedAtMs: NOON_MS },
  ...change,
});

onEachStore('what calendars were told', ({ open, address }) => {
  it('comes back as it was kept, of the sites asked for and until when', async () => {
    const { calendar } = await open();
    const other = window(1, { site: 'own/b', uid: 'uid-b', toMs: NOON_MS + DAY_MS });
    expect(await calendar.keep([window(2), window(1), other])).toBe(true);
    expect(await calendar.windows(['own/a'], 0)).toEqual([window(1), window(2)]);
    expect(await calendar.windows(['own/b', 'own/a'], NOON_MS + 3_600_000)).toEqual([other]);
    const taken = window(1, { sequence: 1, cancelled: true });
    expect(await calendar.keep([taken])).toBe(true);
    expect(await calendar.windows(['own/a'], 0)).toEqual([taken, window(2)]);
  });

  it('is kept whole or not at all, and by one of two who differ', async () => {
    const where = await address();
    const one = await open(where);
    const two = 'sqliteFile' in where ? await open({ ...where, shared: true }) : await open(where);
    const [mine, theirs] = [window(1), window(1, { uid: 'uid-theirs' })];
    const kept = await Promise.all([one.calendar.keep([mine]), two.calendar.keep([theirs])]);
    expect(kept.toSorted()).toEqual([false, true]);
    const [stands] = await one.calendar.windows(['own/a'], 0);
    expect(stands?.uid).toBe(kept[0] ? 'uid-1' : 'uid-theirs');
    // Not the second change twice, and nothing beside it.
    const next = { ...(stands as CalendarWindow), sequence: 1, toMs: NOON_MS + 7_200_000 };
    expect(await two.calendar.keep([next])).toBe(true);
    expect(await one.calendar.keep([window(3), { ...next, cancelled: true }])).toBe(false);
    expect(await one.calendar.windows(['own/a'], 0)).toEqual([next]);
  });

  it('goes with its age', async () => {
    const { calendar, care } = await open();
    await calendar.keep([window(1), window(2, { toMs: NOON_MS + 400 * DAY_MS })]);
    const year = 365 * DAY_MS;
    const ages = { claimsMs: year, repliesMs: year, burnsMs: year, observationsMs: year, auditMs: year };
    // The clock of the tests stands at noon.
    expect((await care.expire({ plansMs: -2 * DAY_MS, ...ages })).calendar).toBe(1);
    expect((await calendar.windows(['own/a'], 0)).map(({ number }) => number)).toEqual([2]);
  });
});
