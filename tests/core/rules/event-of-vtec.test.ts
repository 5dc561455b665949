// Every event that stops or holds a burn is known by its code too, or is named here as one that has none.

import { expect, it } from 'vitest';
import { DEFAULT_ALERTS } from '#config/defaults.ts';
import { eventOfVtec } from '#core/rules/event-of-vtec.ts';

/** Told by other agencies and without a VTEC code, or (Air Quality Warning) under no code of the NWS at all. From memory. */
const WITHOUT_CODE = ['Fire Warning', 'Extreme Fire Danger', 'Evacuation Immediate', 'Air Quality Warning'];

/** NWS Instruction 10-1703, phenomena and significances; the codes are from memory. */
const CODES: readonly (readonly [string, string, string])[] = [
  ['FW', 'W', 'Red Flag Warning'],
  ['FW', 'A', 'Fire Weather Watch'],
  ['EW', 'W', 'Extreme Wind Warning'],
  ['HW', 'W', 'High Wind Warning'],
  ['HW', 'A', 'High Wind Watch'],
  ['WI', 'Y', 'Wind Advisory'],
  ['HU', 'W', 'Hurricane Warning'],
  ['TR', 'W', 'Tropical Storm Warning'],
  ['SV', 'W', 'Severe Thunderstorm Warning'],
  ['SV', 'A', 'Severe Thunderstorm Watch'],
  ['TO', 'W', 'Tornado Warning'],
  ['TO', 'A', 'Tornado Watch'],
  ['DS', 'W', 'Dust Storm Warning'],
  ['DU', 'Y', 'Blowing Dust Advisory'],
  ['SM', 'Y', 'Dense Smoke Advisory'],
  ['AS', 'Y', 'Air Stagnation Advisory'],
  ['AQ', 'Y', 'Air Quality Alert'],
];

it.each(CODES)('%s.%s is %s', (phenomenon, significance, event) => {
  expect(eventOfVtec(phenomenon, significance)).toBe(event);
});

it('none of the events that stop or hold is missing', () => {
  const known = new Set(CODES.map(([, , event]) => event));
  const missing = Object.keys(DEFAULT_ALERTS).filter((event) => !known.has(event));
  expect(missing.toSorted()).toEqual(WITHOUT_CODE.toSorted());
});

it('a code that is not known has no name', () => {
  expect(eventOfVtec('XX', 'W')).toBeNull();
});
