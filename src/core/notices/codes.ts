// What each code of the watch means for telling it: whether a standing stop makes it superfluous, and whose business it
// is beside the crew's. The table is ours: no source.

import type { ConditionCode } from '#core/watch/condition.ts';

interface ToldBy {
  /** While a stop stands, less than a stop of this says nothing new: the fire is to be put down anyway. */
  readonly mutedByStop: boolean;
  /** The office is told at once, whether or not the crew answers. */
  readonly office: boolean;
  /** Dispatch is told; it is told of every stop in any case. */
  readonly dispatch: boolean;
}

const WEATHER: ToldBy = { mutedByStop: true, office: false, dispatch: false };
/** Blindness is told beside a stop too: whoever puts the fire down must know that nobody else looks. */
const BLIND: ToldBy = { mutedByStop: false, office: false, dispatch: false };
const DUTY: ToldBy = { mutedByStop: false, office: false, dispatch: false };

export const TOLD_BY: Readonly<Record<ConditionCode, ToldBy>> = {
  'wind-shifted': WEATHER,
  'wind-drifted': WEATHER,
  'smoke-turned-to-place': WEATHER,
  'wind-unsteady': WEATHER,
  'observed-beyond-limit': WEATHER,
  'thunder-near': WEATHER,
  'official-alert': WEATHER,
  'local-order': WEATHER,
  'authority-stop': { mutedByStop: false, office: true, dispatch: true },
  'plan-worse': WEATHER,
  'plan-moved': WEATHER,
  'plan-verdict': WEATHER,
  'wind-shift-ahead': WEATHER,
  'last-charge-soon': WEATHER,
  'last-charge-due': WEATHER,
  'forecast-stale': BLIND,
  'station-silent': BLIND,
  'station-doubted': BLIND,
  'reading-missing': BLIND,
  'wind-unmeasured': BLIND,
  'lit-against-plan': { mutedByStop: false, office: true, dispatch: false },
  'lit-without-go': { mutedByStop: false, office: true, dispatch: false },
  'cover-due': DUTY,
  'not-covered-by-dusk': { mutedByStop: false, office: true, dispatch: true },
  'look-again': DUTY,
};
