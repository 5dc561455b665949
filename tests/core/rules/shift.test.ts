import { describe, expect, it } from 'vitest';
import { shift } from '#core/rules/shift.ts';
import type { Site } from '#core/site/site.ts';
import { told } from '../../builders/findings.ts';
import { contextOf, inputOf } from '../../builders/plan.ts';
import { PLAIN_SITE, shiftOf, siteWith } from '../../builders/site.ts';

const onDate = (changes: Partial<Site>, firstDate = '2026-03-02') => {
  const site = siteWith(changes);
  return told(shift(contextOf(inputOf({ site, firstDate }))), firstDate, site.timeZone).sort();
};

describe('working hours', () => {
  it('outside of them is stop, and the first minutes are for the engine', () => {
    expect(onDate({})).toEqual([
      'hold warming-up 07:00-07:10',
      'stop off-shift 17:00-2026-03-03 07:00',
      'stop off-shift 2026-03-01 17:00-07:00',
    ]);
  });

  it('a site without shifts is never attended', () => {
    expect(onDate({ shifts: [] })).toEqual(['stop off-shift 2026-03-01 00:00-later']);
  });

  it('a day off is stop all day', () => {
    const weekdays = shiftOf('07:00', '17:00', ['mon', 'tue', 'wed', 'thu', 'fri']);
    expect(onDate({ shifts: [weekdays] }, '2026-03-07')).toEqual(['stop off-shift 2026-03-06 17:00-later']);
  });

  it('over midnight they end on the next date', () => {
    expect(onDate({ shifts: [shiftOf('20:00', '04:00')] })).toEqual([
      'hold warming-up 20:00-20:10',
      'stop off-shift 04:00-20:00',
    ]);
  });

  it('without warm-up hold nothing', () => {
    expect(
      onDate({ burn: { ...PLAIN_SITE.burn, warmUpMin: 0 } }).filter((l) => l.includes('warming')),
    ).toEqual([]);
  });

  it('a warm-up longer than the shift takes all of it, and no more', () => {
    expect(onDate({ burn: { ...PLAIN_SITE.burn, warmUpMin: 1440 } })).toContain(
      'hold warming-up 07:00-17:00',
    );
  });

  it('on the days of the clock change keep their clock times', () => {
    const newYork = { timeZone: 'America/New_York' };
    expect(onDate(newYork, '2026-03-08')).toContain('hold warming-up 07:00-07:10');
    expect(onDate(newYork, '2026-11-01')).toContain('stop off-shift 17:00-2026-11-02 07:00');
  });
});
