// The whole watch on one page: the record of a site at a moment in; every condition that could matter out, each true, false
// or unknown. Read this first. Pure: no clock, no I/O; the same input gives the same conditions.

import { burnConditions } from './burn-conditions.ts';
import { isOpen } from './burn-plan.ts';
import type { Condition } from './condition.ts';
import { keepRaised } from './keep-raised.ts';
import { lookAgain } from './look-again.ts';
import { observedLimits } from './observed-limits.ts';
import { orderConditions } from './order-conditions.ts';
import { planConditions } from './plan-conditions.ts';
import { readingMissing } from './reading-missing.ts';
import { smokeTurned } from './smoke-turned.ts';
import type { Station } from './station.ts';
import { stationConditions } from './station-conditions.ts';
import { thunderNear } from './thunder-near.ts';
import { unfoundStations } from './unfound-stations.ts';
import { unsteady } from './unsteady.ts';
import { type WatchInput, watchContext } from './watch-context.ts';
import { windDrift } from './wind-drift.ts';
import { windShift } from './wind-shift.ts';
import { windUnmeasured } from './wind-unmeasured.ts';

export function judgeWatch(input: WatchInput): Condition[] {
  const context = watchContext(input);
  const { burn } = input;
  const seen = [
    // What is measured.
    windShift(context),
    unsteady(context),
    ...smokeTurned(context),
    ...observedLimits(context),
    thunderNear(context),
    ...stationConditions(context),
    ...readingMissing(context),
    // What offices say, and what the forecast has come to.
    ...orderConditions(context),
    ...planConditions(context),
  ];
  const unmeasured = windUnmeasured(context);
  const conditions = [
    ...seen,
    // What the crew does, and did: a covered pit is looked at again.
    ...(isOpen(burn) ? windDrift(context) : []),
    ...unmeasured,
    ...burnConditions(context, context.stations.some(isMeter) ? [...seen, ...unmeasured] : seen),
    ...lookAgain(context),
    // Not beside a light-up: before it nobody was told of those that are still to be found.
    ...unfoundStations(context),
  ];
  return keepRaised(input.before, conditions);
}

/** Where one is to be read, that nobody has done so is a hold before the light-up too. */
const isMeter = ({ kind }: Station): boolean => kind === 'person';
