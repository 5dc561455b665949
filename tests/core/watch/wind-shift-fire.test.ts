// A turn of the wind while a pit burns: over when the wind is back or the crew was briefed on the new one, never by time.

import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { windShift } from '#core/watch/wind-shift.ts';
import { AIRPORT, clock, every, ON_SITE, seen } from '../../builders/watch.ts';
import { type WatchText, watchContextOf } from '../../builders/watch-input.ts';

const shift = (observations: readonly Observation[], text: WatchText = {}) =>
  windShift(watchContextOf({ observations, ...text }));
const truthOf = (...given: Parameters<typeof shift>) => shift(...given).truth;

// By time alone it was over at 12:40 for a turn of 52 degrees that stood, which is less than a drift.
describe('a turn of the wind beside a fire', () => {
  const stands = [
    ...every(5, '11:00', '11:55', '180 5'),
    ...every(5, '12:00', '13:00', (m) => `${231.5 + (m % 10) / 5} 5`),
  ];

  it('is not over while the new wind stands', () => {
    for (const now of ['12:10', '12:31', '12:45', '13:00']) {
      expect(shift(stands, { now })).toMatchObject({
        truth: 'true',
        verdict: 'hold',
        figures: { atMs: clock('12:00'), wasFromDeg: expect.closeTo(180, 6) },
      });
    }
    // Nor by a calm, or a wind from no one direction.
    for (const wind of ['calm', 'VRB 5', '211 5']) {
      const later = [...stands.filter((o) => o.observedAtMs < clock('12:20'))];
      expect(truthOf([...later, ...every(5, '12:20', '13:00', wind)]), wind).toBe('true');
    }
  });

  it('is over when the wind has been back near to the one before for a quarter of an hour', () => {
    const back = [
      ...stands.filter((o) => o.observedAtMs < clock('12:30')),
      ...every(5, '12:30', '13:00', '209 5'),
    ];
    expect(truthOf(back, { now: '12:44' })).toBe('true');
    expect(truthOf(back, { now: '12:45' })).toBe('false');
  });

  it('is over when the crew was briefed on the new wind, not by a briefing before it', () => {
    expect(truthOf(stands, { rebriefedAtMs: clock('12:05'), now: '12:30' })).toBe('true');
    expect(truthOf(stands, { rebriefedAtMs: clock('12:05') })).toBe('false');
    expect(truthOf(stands, { rebriefedAtMs: clock('11:55') })).toBe('true');
  });

  it('that turns on is over only at the wind before both', () => {
    const on = (to: string) => [
      ...stands.filter((o) => o.observedAtMs < clock('12:25')),
      ...every(5, '12:25', '13:00', to),
    ];
    expect(shift(on('290 5'))).toMatchObject({
      truth: 'true',
      figures: { atMs: clock('12:25'), wasFromDeg: expect.closeTo(180, 6) },
    });
    expect(truthOf(on('180 5'))).toBe('false');
  });

  it('is never over by what goes missing, nor by another station that saw nothing', () => {
    const before = [shift(stands, { now: '12:40' })];
    expect(shift([], { before, now: '15:30' })).toMatchObject({ truth: 'true', verdict: 'hold' });
    const airport = [
      seen('12:53', '230 5', { station: 'KXYZ' }),
      seen('13:53', '230 5', { station: 'KXYZ' }),
    ];
    const text = { before, now: '13:55', stations: [ON_SITE, AIRPORT] };
    expect(shift(airport, text)).toMatchObject({ truth: 'true', figures: { station: 'KXYZ' } });
    // Older than what is looked back on, and still there.
    const goesOn = every(5, '12:45', '15:45', (m) => `${232 + (m % 10) / 5} 5`);
    expect(truthOf(goesOn, { before, now: '15:45' })).toBe('true');
  });
});
