// Where an answer leaves it in doubt whether an alert is real or a list whole, and which contacts a header can carry.

import { describe, expect, it } from 'vitest';
import { isUsableContact } from '#core/units/contact.ts';
import { readAlertCollection, readAlerts } from '#sources/nws/alerts.ts';
import { alert, answerTo, ZONES } from './alert-fixture.ts';
import { bytesOf } from './grid-fixture.ts';

describe('the status of an alert', () => {
  const idsWith = (status: unknown) =>
    readAlerts([answerTo('point', [alert({ id: 'a', status })])], ZONES).alerts.map(({ id }) => id);

  it.each([['Exercise'], ['SYSTEM'], ['test'], ['Draft'], [' Test ']])('%j puts it out', (status) => {
    expect(idsWith(status)).toEqual([]);
  });

  it.each([['Actual'], ['ACTUAL'], ['actual'], ['Real'], ['Tested'], [''], [null], [5], [['Test']]])(
    '%j leaves it in',
    (status) => {
      expect(idsWith(status)).toEqual(['a']);
    },
  );
});

describe('a list of alerts', () => {
  const wholeWith = (pagination: unknown) => readAlertCollection(bytesOf({ features: [], pagination })).whole;

  it.each([[{ next: 'x' }], [{ next: '' }], [{ next: { href: 'x' } }], [{ next: 0 }], ['x'], [[]], [true]])(
    'is not whole with pagination %j',
    (pagination) => {
      expect(wholeWith(pagination)).toBe(false);
    },
  );

  it.each([[null], [{}], [{ next: null }], [undefined]])('is whole with pagination %j', (pagination) => {
    expect(wholeWith(pagination)).toBe(true);
  });

  it.each([
    ['2026-03-02T18:00:00+00:00', Date.UTC(2026, 2, 2, 18)],
    ['yesterday', null],
    [5, null],
    [undefined, null],
  ])('tells with %j when it changed', (updated, expected) => {
    expect(readAlertCollection(bytesOf({ features: [], updated })).updatedMs).toBe(expected);
  });
});

describe('a contact', () => {
  it.each([['ops@example.org'], ['https://example.org/burn'], ['Burn crew, ops@example.org']])(
    '%j can be used',
    (text) => {
      expect(isUsableContact(text)).toBe(true);
    },
  );

  it.each([
    [''],
    ['ab'],
    ['   '],
    [' ops@example.org'],
    ['a\r\nb: c'],
    ['ops@exämple.org'],
    ['x'.repeat(201)],
  ])('%j cannot be used', (text) => {
    expect(isUsableContact(text)).toBe(false);
  });
});
