// What people are told of while no pit burns: that the plan they were told has changed, the days after a
// cover, and that an authority has put the site on stop.

import type { ConditionCode } from '#core/watch/condition.ts';

const WITHOUT_FIRE: ReadonlySet<ConditionCode> = new Set<ConditionCode>([
  'plan-verdict',
  'plan-moved',
  'plan-worse',
  'look-again',
  'authority-stop',
]);

export const watchedWithoutFire = (code: ConditionCode): boolean => WITHOUT_FIRE.has(code);
