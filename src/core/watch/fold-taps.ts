// What the crew tapped → the burn as it stands. The same taps give the same burn, in whatever order and how often they come.

import type { Burn, BurnTap, Tap } from './burn.ts';

const STAGE: Readonly<Record<Tap, number>> = {
  lit: 0,
  charging: 1,
  'burning-down': 2,
  'put-out-early': 3,
  covered: 4,
};

/**
 * The burn of the taps of one id; null where none of them counts. Whatever the state, it is open until covered: a pit put out
 * early still has to be. A fire tapped after a cover opens it again.
 */
export function foldTaps(taps: readonly BurnTap[], site: string, briefedFromDeg: number | null): Burn | null {
  const counting = countedTaps(taps).sort(inOrder);
  const [first] = counting;
  const last = counting.at(-1);
  if (first === undefined || last === undefined) return null;
  const since = counting.slice(counting.findLastIndex((t) => t.tap !== last.tap) + 1)[0] ?? last;
  return {
    id: first.burn,
    site,
    state: last.tap,
    openedAtMs: momentOf(first),
    litAtMs: litAtMs(counting),
    sinceMs: momentOf(since),
    closedAtMs: last.tap === 'covered' ? momentOf(since) : null,
    briefedFromDeg,
  };
}

/** The first light of the fire that burns, or burned last: one lit twice was lit the first time. */
function litAtMs(counting: readonly BurnTap[]): number | null {
  let litMs: number | null = null;
  let isOut = true;
  for (const tap of counting) {
    if (tap.tap === 'lit' && isOut) litMs = momentOf(tap);
    if (tap.tap === 'lit') isOut = false;
    if (tap.tap === 'covered' || tap.tap === 'put-out-early') isOut = true;
  }
  return litMs;
}

/** A clock that runs ahead cannot tap later than its tap arrived. */
const momentOf = ({ tappedAtMs, receivedAtMs }: BurnTap): number => Math.min(tappedAtMs, receivedAtMs);

/** By the moment of the tap, not of its arrival; of one moment in the order in which things happen at a pit. */
const inOrder = (a: BurnTap, b: BurnTap): number =>
  momentOf(a) - momentOf(b) ||
  STAGE[a.tap] - STAGE[b.tap] ||
  a.receivedAtMs - b.receivedAtMs ||
  (a.id < b.id ? -1 : 1);

/** Each id once; without those that a tap which stands replaces or withdraws, and without the withdrawals themselves. */
export function countedTaps(taps: readonly BurnTap[]): BurnTap[] {
  const byId = new Map<string, BurnTap>();
  for (const tap of taps) {
    const known = byId.get(tap.id);
    // One id sent again counts as it first came.
    if (known === undefined || tap.receivedAtMs < known.receivedAtMs) byId.set(tap.id, tap);
  }
  const correcting = new Map<string, BurnTap[]>();
  for (const tap of byId.values()) {
    if (tap.corrects === null) continue;
    correcting.set(tap.corrects, [...(correcting.get(tap.corrects) ?? []), tap]);
  }
  const correctorsOf = (tap: BurnTap): readonly BurnTap[] => correcting.get(tap.id) ?? [];
  return [...byId.values()].filter((tap) => {
    const standing = correctorsOf(tap).filter((c) => stands(c, correctorsOf, [tap.id]));
    // Of two corrections of one tap the one received last counts.
    const rivals = tap.corrects === null ? [] : (correcting.get(tap.corrects) ?? []);
    const isLast = rivals
      .filter((r) => !r.withdraws && stands(r, correctorsOf, []))
      .every((r) => r === tap || isBefore(r, tap));
    return !tap.withdraws && standing.length === 0 && (tap.corrects === null || isLast);
  });
}

const isBefore = (a: BurnTap, b: BurnTap): boolean =>
  a.receivedAtMs === b.receivedAtMs ? a.id < b.id : a.receivedAtMs < b.receivedAtMs;

/** False where it did not happen at all: some tap that stands withdraws it. Taps that correct each other in a ring stand. */
function stands(
  tap: BurnTap,
  correctorsOf: (tap: BurnTap) => readonly BurnTap[],
  seen: readonly string[],
): boolean {
  if (seen.includes(tap.id)) return true;
  return !correctorsOf(tap).some((c) => c.withdraws && stands(c, correctorsOf, [...seen, tap.id]));
}
