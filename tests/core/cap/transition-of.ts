// A transition and its condition for tests, with what matters to a test given.

import type { Transition } from '#core/notices/notice.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { type Condition, type ConditionFigures, NO_FIGURES } from '#core/watch/condition.ts';

const AT_MS = Date.UTC(2026, 3, 14, 17);

export const conditionOf = (
  given: Partial<Omit<Condition, 'figures'>>,
  figures: Partial<ConditionFigures> = {},
): Condition => ({
  code: 'wind-shifted',
  subject: '',
  truth: 'true',
  verdict: 'stop',
  basis: 'observed',
  asOfMs: AT_MS,
  holdsForMs: 0,
  clearsForMs: 0,
  validUntilMs: AT_MS + HOUR_MS,
  ...given,
  figures: { ...NO_FIGURES, ...figures },
});

export const transitionOf = (given: Partial<Transition>): Transition => ({
  notice: 'own/north-block wind-shifted ',
  site: 'own/north-block',
  episode: '1',
  number: 1,
  kind: 'raised',
  atMs: AT_MS,
  verdict: 'stop',
  was: null,
  raisedAtMs: AT_MS,
  inhibited: false,
  condition: conditionOf({}),
  ...given,
});
