// How notices are weighed in the terms of CAP 1.2, 3.2.2: urgency (Immediate now, Expected within the hour), certainty
// (Likely above one in two), response types. The mapping itself is ours: common practice, no source.

import { expect, it } from 'vitest';
import { noticeSays } from '#core/cap/notice-says.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { conditionOf, transitionOf } from './transition-of.ts';

const AT_MS = Date.UTC(2026, 3, 14, 17);
const said = (...given: Parameters<typeof conditionOf>) => {
  const condition = conditionOf(...given);
  const { terms } = noticeSays(transitionOf({ condition, verdict: condition.verdict }));
  const { urgency, severity, certainty, responseType } = terms;
  return `${urgency} ${severity} ${certainty} ${responseType}`;
};
const ahead = (min: number) => ({ atMs: AT_MS + min * MINUTE_MS });

it.each([
  ['a limit crossed now', said({ code: 'observed-beyond-limit' }), 'Immediate Moderate Observed Execute'],
  [
    'a wind that turned to nobody',
    said({ code: 'wind-shifted', verdict: 'hold' }),
    'Immediate Minor Observed Monitor',
  ],
  [
    'smoke on a protected place',
    said({ code: 'smoke-turned-to-place' }),
    'Immediate Moderate Observed Execute',
  ],
  [
    'a stop forecast within the hour',
    said({ code: 'plan-worse', basis: 'forecast' }, ahead(40)),
    'Expected Moderate Likely Prepare',
  ],
  [
    'a stop forecast for later',
    said({ code: 'plan-worse', basis: 'forecast' }, ahead(61)),
    'Future Moderate Likely Prepare',
  ],
  [
    'thunder that is less likely than not',
    said(
      { code: 'plan-worse', basis: 'forecast' },
      { ...ahead(40), element: 'probabilityOfThunder', value: 50 },
    ),
    'Expected Moderate Possible Prepare',
  ],
  [
    'a wind shift ahead',
    said({ code: 'wind-shift-ahead', basis: 'forecast', verdict: 'go' }, ahead(90)),
    'Future Minor Likely Monitor',
  ],
  [
    'an order in force',
    said({ code: 'local-order', basis: 'order' }, ahead(-5)),
    'Immediate Moderate Observed Execute',
  ],
  ['an old forecast', said({ code: 'forecast-stale', verdict: 'hold' }), 'Immediate Unknown Unknown Monitor'],
  [
    'what nobody can say any more',
    said({ code: 'wind-shifted', truth: 'unknown' }),
    'Immediate Moderate Unknown Execute',
  ],
  [
    'a pit to be covered',
    said({ code: 'cover-due', basis: 'record', verdict: 'hold' }),
    'Immediate Minor Observed Execute',
  ],
])('%s', (_, is, expected) => expect(is).toBe(expected));

it('an observed wind is of use for an hour; what stands for long is told for a day at the most', () => {
  const untilOf = (validUntilMs: number, code: 'wind-shifted' | 'local-order') => {
    const says = noticeSays(transitionOf({ condition: conditionOf({ code, validUntilMs }) }));
    return says.kind === 'stands' ? says.untilMs - AT_MS : null;
  };
  expect(untilOf(AT_MS + 5 * HOUR_MS, 'wind-shifted')).toBe(HOUR_MS);
  expect(untilOf(AT_MS + MINUTE_MS, 'local-order')).toBe(HOUR_MS);
  expect(untilOf(AT_MS + 500 * HOUR_MS, 'local-order')).toBe(24 * HOUR_MS);
});
