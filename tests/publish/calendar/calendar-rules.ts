// What RFC 5545 asks of a calendar that readers let pass: they are lenient, so it is checked here, from the octets on. No test.

import { expect } from 'vitest';

const TEXTS = new Set(['SUMMARY', 'DESCRIPTION', 'LOCATION', 'NAME']);
const ONCE = ['UID', 'DTSTAMP', 'DTSTART', 'DTEND', 'SEQUENCE', 'STATUS', 'SUMMARY'];
const UTC = /^\d{4}(0[1-9]|1[0-2])(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3])[0-5]\d[0-5]\dZ$/;

export interface EventRead {
  readonly uid: string;
  readonly sequence: number;
  readonly status: string;
  readonly fromMs: number;
  readonly toMs: number;
}

export function expectRules(text: string): EventRead[] {
  // 3.1: CRLF alone, 75 octets at the most, nothing torn within a character.
  expect(text.endsWith('\r\n')).toBe(true);
  const raw = text.slice(0, -2).split('\r\n');
  for (const line of raw) {
    expect(line).not.toMatch(/[\r\n]/);
    expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    expect(line.isWellFormed()).toBe(true);
    expect(line.length).toBeGreaterThan(0);
  }
  const lines = text.slice(0, -2).replaceAll('\r\n ', '').split('\r\n');
  const open: string[] = [];
  const events: Map<string, string[]>[] = [];
  for (const line of lines) {
    const [, name = '', value = ''] = /^([A-Z-]+)(?:;[A-Z-]+=[^:;]+)*:(.*)$/.exec(line) ?? [];
    expect(name, line).not.toBe('');
    if (name === 'BEGIN') {
      open.push(value);
      if (value === 'VEVENT') events.push(new Map());
    } else if (name === 'END') expect(value).toBe(open.pop());
    else if (open.at(-1) === 'VEVENT') events.at(-1)?.set(name, [...(events.at(-1)?.get(name) ?? []), value]);
    // 3.3.11: a backslash comes before what it escapes, and what is to be escaped has one.
    if (TEXTS.has(name)) expect(value.replaceAll(/\\[\\;,nN]/g, '')).not.toMatch(/[\\;,]/);
  }
  expect(open).toEqual([]);
  // 3.4, 3.6: one object, its version and maker once, a component at least.
  expect([lines[0], lines.at(-1)]).toEqual(['BEGIN:VCALENDAR', 'END:VCALENDAR']);
  for (const one of ['VERSION:2.0', 'PRODID:'])
    expect(lines.filter((line) => line.startsWith(one))).toHaveLength(1);
  expect(lines.filter((line) => /^BEGIN:(VEVENT|VTIMEZONE)$/.test(line)).length).toBeGreaterThan(0);
  const read = events.map(eventRead);
  expect(new Set(read.map(({ uid }) => uid)).size).toBe(read.length);
  return read;
}

/** 3.6.1: each once; instants in UTC; an end after the beginning. */
function eventRead(event: ReadonlyMap<string, readonly string[]>): EventRead {
  for (const name of ONCE) expect([name, event.get(name)?.length]).toEqual([name, 1]);
  const one = (name: string): string => event.get(name)?.[0] ?? '';
  for (const name of ['DTSTAMP', 'LAST-MODIFIED', 'DTSTART', 'DTEND']) expect(one(name)).toMatch(UTC);
  expect(['TENTATIVE', 'CONFIRMED', 'CANCELLED']).toContain(one('STATUS'));
  expect(one('SEQUENCE')).toMatch(/^\d+$/);
  const ms = (text: string): number =>
    Date.parse(text.replace(/^(\d{4})(\d\d)(\d\dT\d\d)(\d\d)/, '$1-$2-$3:$4:'));
  const [fromMs, toMs] = [ms(one('DTSTART')), ms(one('DTEND'))];
  expect(toMs).toBeGreaterThan(fromMs);
  return { uid: one('UID'), sequence: Number(one('SEQUENCE')), status: one('STATUS'), fromMs, toMs };
}
