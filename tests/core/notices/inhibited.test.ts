// While a stop stands, a hold of the same site says nothing new: it stays in the state and is told when the stop is over.

import { expect, it } from 'vitest';
import { conditionOf, gust, shift, watched } from '../../builders/notices.ts';

const AT_ONCE = { holdsForMs: 0 };

it('a hold beside a stop that stands is not told, and is told at the moment at which the stop is over', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  for (let minute = 1; minute <= 5; minute += 1) {
    expect(w.step(minute, [gust('true', 'stop'), shift('true', 'hold', AT_ONCE)])).toEqual([]);
  }
  expect(w.notices.map((n) => [n.phase, n.standing, n.told])).toEqual([
    ['raised', 'stop', 'stop'],
    ['raised', 'hold', null],
  ]);
  for (let minute = 6; minute <= 16; minute += 1) {
    w.step(minute, [gust('false', 'stop'), shift('true', 'hold', AT_ONCE)]);
  }
  expect(w.said.slice(1)).toEqual(['16 over go observed-beyond-limit', '16 raised hold wind-shifted']);
});

it('a hold that comes at the same moment as the stop is told with it', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop'), shift('true', 'hold', AT_ONCE)]);
  expect(w.said).toEqual(['0 raised stop observed-beyond-limit', '0 raised hold wind-shifted']);
});

it('a hold that is over before the stop is was never told', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  w.step(1, [gust('true', 'stop'), shift('true', 'hold', AT_ONCE)]);
  for (let minute = 2; minute <= 40; minute += 1) w.step(minute, [gust('true', 'stop'), shift('false')]);
  expect(w.told).toHaveLength(1);
  expect(w.notices[1]).toMatchObject({ phase: 'quiet', told: null });
});

it('the end of a hold that was told before the stop is kept for the record alone', () => {
  const w = watched();
  w.step(0, [shift('true', 'hold', AT_ONCE)]);
  w.step(1, [shift('true', 'hold', AT_ONCE), gust('true', 'stop')]);
  for (let minute = 2; minute <= 20; minute += 1) w.step(minute, [shift('false'), gust('true', 'stop')]);
  expect(w.told.at(-1)).toMatchObject({ kind: 'over', inhibited: true, condition: { code: 'wind-shifted' } });
  expect(w.said).toEqual(['0 raised hold wind-shifted', '1 raised stop observed-beyond-limit']);
});

it('a second stop is told beside the first, and each goes on inhibiting while it stands', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  w.step(1, [gust('true', 'stop'), shift('true', 'stop', AT_ONCE)]);
  for (let minute = 2; minute <= 20; minute += 1) {
    w.step(minute, [gust('false', 'stop'), shift('true', 'stop', AT_ONCE), thunder]);
  }
  expect(w.said).toEqual(['0 raised stop observed-beyond-limit', '1 raised stop wind-shifted']);
  expect(w.told.at(-1)).toMatchObject({ kind: 'over', inhibited: true });
});

const thunder = conditionOf('thunder-near', 'true', AT_ONCE);

it('a stop that nobody can judge any more goes on inhibiting', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  for (let minute = 1; minute <= 30; minute += 1) w.step(minute, [gust('unknown', 'stop'), thunder]);
  expect(w.said).toEqual(['0 raised stop observed-beyond-limit', '6 unsure stop observed-beyond-limit']);
});

it('blindness, the crew lighting against the plan, and a pit left open are told beside a stop', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  const codes = ['station-silent', 'forecast-stale', 'lit-against-plan', 'not-covered-by-dusk'] as const;
  w.step(1, [gust('true', 'stop'), ...codes.map((code) => conditionOf(code, 'true'))]);
  expect(w.said.slice(1).map((line) => line.split(' ')[3])).toEqual(codes.toSorted());
});
