// The observed wind of a site at this moment, as pages and answers show it: by whom, how old, how steady.

import { downwindDeg } from '#core/units/direction.ts';
import type { PassedOver } from './choose-station.ts';
import type { ObservedWind } from './observation.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import { type WatchInput, watchContext } from './watch-context.ts';
import { yamartinoSigmaDeg } from './wind-mean.ts';

export interface WindNow {
  /** Whose word it is; null where there is none to go by. */
  readonly station: string | null;
  /** The stations that would come first, and why each was passed over. */
  readonly passedOver: readonly { readonly station: string; readonly why: PassedOver }[];
  readonly observedAtMs: number | null;
  /** The mean of the last minutes. Calm, variable, missing and north are four different things. */
  readonly kind: ObservedWind['kind'];
  readonly fromDeg: number | null;
  readonly smokeToDeg: number | null;
  readonly speedMps: number | null;
  readonly gustMps: number | null;
  /** Resultant length and Yamartino's sigma of these minutes; null where nothing blew. */
  readonly resultant: number | null;
  readonly sigmaDeg: number | null;
}

export function windNow(input: WatchInput): WindNow {
  const { chosen, passedOver } = chosenFor(watchContext(input), tellsWind);
  const newest = chosen?.winds.at(-1) ?? null;
  const recent = newest?.recent ?? null;
  const blew = recent !== null && (recent.kind === 'blowing' || recent.kind === 'variable');
  const fromDeg = recent?.fromDeg ?? null;
  return {
    station: chosen?.station.id ?? null,
    passedOver: passedOver.map(({ watched, why }) => ({ station: watched.station.id, why })),
    observedAtMs: newest?.atMs ?? null,
    kind: recent?.kind ?? 'missing',
    fromDeg,
    smokeToDeg: fromDeg === null ? null : downwindDeg(fromDeg),
    speedMps: recent?.speedMps ?? null,
    gustMps: newest?.observation.gustMps ?? null,
    resultant: blew ? recent.resultant : null,
    sigmaDeg: blew ? yamartinoSigmaDeg(recent.resultant) : null,
  };
}
