import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isNearShift } from '#jobs/due.ts';
import { createNearShift } from '#service/near-shift.ts';

const HOUR_MS = 3_600_000;
const day = { days: ['mon', 'wed', 'sat'] as const, from: '07:00', to: '17:00', holidays: ['2026-03-11'] };
const night = { days: ['fri', 'sun'] as const, from: '22:30', to: '05:00', holidays: [] };

describe('whether a shift lasts or is near', () => {
  it('is what the keeper of pulls goes by, however the clock is set, also over a clock change', () => {
    const zones = ['America/Los_Angeles', 'America/Denver', 'America/Phoenix', 'UTC'];
    const from = Date.parse('2026-03-01T00:00:00Z');
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.constantFrom([day], [night], [day, night], []),
        fc.array(fc.integer({ min: 0, max: 20 * 24 * 60 }), { minLength: 1, maxLength: 40 }),
        (timeZone, shifts, minutes) => {
          const near = createNearShift();
          for (const minute of minutes) {
            const nowMs = from + minute * 60_000;
            const site = { placeKey: '', shifts, place: { timeZone } as never };
            expect(near(shifts, timeZone, nowMs)).toBe(isNearShift(site, nowMs));
          }
        },
      ),
    );
  });

  it('turns at the very moment', () => {
    const near = createNearShift();
    // Monday, 2 March 2026, 07:00 in Denver is 14:00 UTC.
    const beginsMs = Date.parse('2026-03-02T14:00:00Z') - 3 * HOUR_MS;
    const endsMs = Date.parse('2026-03-03T00:00:00Z');
    const shifts = [day];
    expect(
      [beginsMs - 1, beginsMs, endsMs - 1, endsMs, beginsMs].map((ms) => near(shifts, 'America/Denver', ms)),
    ).toEqual([false, true, true, false, true]);
  });
});
