// Of taps that came in, those that are not kept yet. Only these change a burn: a tap is kept once under its id, and what the
// store passes over must not end a watch.

import type { BurnTap } from '#core/watch/burn.ts';
import { ServiceError } from '#errors.ts';

/** Throws ServiceError `already_there` where an id is kept for another burn or another tap. */
export function freshTaps(taps: readonly BurnTap[], kept: readonly BurnTap[]): BurnTap[] {
  const byId = new Map(kept.map((tap) => [tap.id, tap]));
  for (const tap of taps) {
    const known = byId.get(tap.id);
    if (known === undefined || isSame(tap, known)) continue;
    throw new ServiceError(
      'already_there',
      `the tap "${tap.id}" is kept already as "${known.tap}" of burn "${known.burn}"; "${tap.tap}" of burn "${tap.burn}" was not kept: send it with an id of its own`,
    );
  }
  return taps.filter(({ id }) => !byId.has(id));
}

/** Its time may differ: who sends again without one means the same tap. */
const isSame = (a: BurnTap, b: BurnTap): boolean =>
  a.burn === b.burn && a.tap === b.tap && a.corrects === b.corrects && a.withdraws === b.withdraws;
