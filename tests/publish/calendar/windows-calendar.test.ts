// The text of a calendar, read back by ical.js (which is lenient) and held to the rules of RFC 5545 that it lets pass.

import fc from 'fast-check';
import ICAL from 'ical.js';
import { expect, it } from 'vitest';
import type { CalendarWindow } from '#core/plan/calendar-windows.ts';
import { windowsCalendar } from '#publish/calendar/windows-calendar.ts';
import { expectRules } from './calendar-rules.ts';

const window = (change: Partial<CalendarWindow> = {}): CalendarWindow => ({
  ...{ site: 'own/a', date: '2026-03-03', number: 1, uid: 'b5b1f6a0-7a60-4c0c-9f0a-6b3f4c3f8f10' },
  ...{ fromMs: Date.parse('2026-03-03T16:00:00Z'), toMs: Date.parse('2026-03-03T21:30:00Z') },
  ...{ sequence: 2, cancelled: false, changedAtMs: Date.parse('2026-03-02T11:05:00Z') },
  ...change,
});

const burn = { warmUpMin: 10, kindlingMin: 30, burnDownMin: 60, coverMin: 30, shortestRunMin: 60 };
const calendarOf = (name: string, windows: readonly CalendarWindow[], language: 'en' | 'es' = 'en') =>
  windowsCalendar(
    windows.map((one) => ({
      window: one,
      site: { name, at: [36.438, -120.231] as const, timeZone: 'America/Los_Angeles', burn },
    })),
    { language, demo: false, of: name },
  );

const eventsIn = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));

it('says when, where and until when to light, in UTC', () => {
  const text = calendarOf('North block, pit 1', [window()]);
  expectRules(text);
  const [event] = eventsIn(text);
  expect(event?.startDate.toJSDate().toISOString()).toBe('2026-03-03T16:00:00.000Z');
  expect(event?.endDate.toJSDate().toISOString()).toBe('2026-03-03T21:30:00.000Z');
  expect([event?.uid, event?.sequence, event?.location]).toEqual([window().uid, 2, 'North block, pit 1']);
  // Half an hour of kindling before the end, in the time of the site.
  expect(event?.description).toContain('Light by 1:00');
  expect(text).toContain('STATUS:TENTATIVE\r\n');
  expect(text).toContain('REFRESH-INTERVAL;VALUE=DURATION:PT15M\r\n');
});

it('one that was taken back says so, and never until when to light', () => {
  const [event] = eventsIn(calendarOf('Arroyo', [window({ cancelled: true })], 'es'));
  expect(event?.component.getFirstPropertyValue('status')).toBe('CANCELLED');
  expect(event?.description).toMatch(/^Retirada/);
  expect(event?.description).not.toContain('Encender a más tardar');
});

it('without a window it is a calendar all the same', () => {
  const text = calendarOf('Nothing', []);
  expect(expectRules(text)).toEqual([]);
  expect(eventsIn(text)).toEqual([]);
});

it('any name comes back as it was, whatever is in it and however long it is', () => {
  const words = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 120 }),
    fc.stringMatching(/^[\\;,:"a\n é–火🔥]{0,90}$/u),
  );
  fc.assert(
    fc.property(words, (name) => {
      const text = calendarOf(name, [window()]);
      expectRules(text);
      const plain = name.replaceAll(/\r\n|\r/g, '\n').replaceAll(/(?![\t\n])\p{Cc}/gu, '');
      expect(eventsIn(text)[0]?.location ?? '').toBe(plain);
    }),
  );
});
