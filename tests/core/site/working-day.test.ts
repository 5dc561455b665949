// Which date today is for a crew on a night shift.

import { expect, it } from 'vitest';
import { workingDayAt } from '#core/site/working-day.ts';
import { shiftOf } from '../../builders/site.ts';
import { at } from '../../builders/time.ts';

const ZONE = 'America/Chicago';
const DAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
const dateAt = (from: string, to: string, moment: string) =>
  workingDayAt([shiftOf(from, to, [...DAYS])], at(moment), ZONE).date;

it('a night shift after midnight works on the date on which it began, until it ends', () => {
  expect(dateAt('18:00', '06:00', '2026-03-03 03:00')).toBe('2026-03-02');
  expect(dateAt('18:00', '06:00', '2026-03-03 05:59')).toBe('2026-03-02');
  expect(dateAt('18:00', '06:00', '2026-03-03 06:00')).toBe('2026-03-03');
});

it('a day shift, and one around the clock, change at midnight', () => {
  expect(dateAt('07:00', '17:00', '2026-03-03 03:00')).toBe('2026-03-03');
  expect(dateAt('00:00', '00:00', '2026-03-03 03:00')).toBe('2026-03-03');
});

it('says when another date may become today', () => {
  expect(workingDayAt([shiftOf('18:00', '06:00', [...DAYS])], at('2026-03-03 03:00'), ZONE).untilMs).toBe(
    at('2026-03-03 06:00'),
  );
  expect(workingDayAt([], at('2026-03-03 03:00'), ZONE).untilMs).toBe(at('2026-03-04 00:00'));
});
