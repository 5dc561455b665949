// The next moment that a crew has to keep: of a pit that burns what it must do next, else when the day begins or ends.

import type { NowAnswer } from '#publish/wire-watch.ts';
import { msOf } from './moments.ts';

export interface NextMoment {
  readonly what: 'lightUp' | 'lastCharge' | 'coveredBy';
  readonly at: string;
}

type Times = Pick<NowAnswer, 'asOf' | 'burn' | 'verdict' | 'lightUp' | 'lastCharge' | 'coveredBy'>;

/** Null where the day has none left. A moment that a burn has let pass stays until it is done. */
export function nextMoment({
  asOf,
  burn,
  verdict,
  lightUp,
  lastCharge,
  coveredBy,
}: Times): NextMoment | null {
  const nowMs = msOf(asOf);
  const of = (what: NextMoment['what'], at: string | null): NextMoment | null =>
    at === null ? null : { what, at };
  if (burn !== null) {
    const mayCharge = (burn.state === 'lit' || burn.state === 'charging') && verdict !== 'stop';
    const charge = mayCharge ? of('lastCharge', lastCharge) : null;
    return charge ?? of('coveredBy', coveredBy);
  }
  const all = [of('lightUp', lightUp), of('lastCharge', lastCharge)];
  return all.find((moment) => moment !== null && msOf(moment.at) > nowMs) ?? null;
}
