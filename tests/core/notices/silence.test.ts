// What a silence must have to be one.

import { expect, it } from 'vitest';
import { type Silence, silenceFaults } from '#core/notices/silence.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { EIGHT_MS, gust, SITE, shift, watched } from '../../builders/notices.ts';

const w = watched();
w.step(0, [gust('true'), shift('false')]);

const faults = (change: Partial<Silence> = {}, notices = w.notices) =>
  silenceFaults(
    {
      id: 's',
      site: SITE,
      code: 'observed-beyond-limit',
      fromMs: EIGHT_MS,
      untilMs: EIGHT_MS + 4 * HOUR_MS,
      reason: 'the sensor is being moved',
      by: 'Ana',
      role: 'crew',
      endedAtMs: null,
      endedBy: null,
      ...change,
    },
    notices,
  );

it('has an end within four hours, a reason, an author, and something that it silences', () => {
  expect(faults()).toEqual([]);
  expect(faults({ code: null })).toEqual([]);
  expect(faults({ untilMs: EIGHT_MS + 4 * HOUR_MS + 1 })).toEqual(['too-long']);
  expect(faults({ untilMs: Number.POSITIVE_INFINITY })).toEqual(['too-long']);
  expect(faults({ untilMs: EIGHT_MS })).toEqual(['ends-before-it-begins']);
  expect(faults({ untilMs: Number.NaN })).toEqual(['too-long', 'ends-before-it-begins']);
  expect(faults({ reason: ' \t', by: '' })).toEqual(['no-reason', 'no-author']);
  expect(faults({ code: 'wind-shifted' })).toEqual(['matches-nothing']);
  expect(faults({ site: 'fern-hollow/south-block' })).toEqual(['matches-nothing']);
  expect(faults({}, [])).toEqual(['matches-nothing']);
});
