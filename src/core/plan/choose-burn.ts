// Which burn a day has: of the stretches of go broken by nothing that forces the fire out, the one that counts.

import { forcesOut } from '#core/rules/finding.ts';
import { overlaps } from '#core/units/time.ts';
import { type Window, windowAt } from '#core/windows/find-windows.ts';

export interface Burn {
  readonly first: Window;
  /** Its end may lie beyond the day's: midnight ends no charge. */
  readonly last: Window;
  /** The go windows of the burn. */
  readonly goes: readonly Window[];
  readonly pauses: readonly Window[];
}

/**
 * One burn a day: of the stretches of go broken by nothing that forces the fire out, the one with the most go; the earlier on
 * a tie; one whose last charge has passed only where no other is left. A hold between two go windows is a pause, since a
 * hold does not put the fire out. `inFrame` are the day's windows, `windows` all; no burn is followed past `latestMs`.
 */
export function chooseBurn(
  inFrame: readonly Window[],
  windows: readonly Window[],
  { nowMs, latestMs }: { readonly nowMs: number; readonly latestMs: number },
): Burn | null {
  let best: { burn: Burn; goMs: number; ahead: boolean } | null = null;
  let stretch: Window[] = [];
  const close = () => {
    const burn = burnOf(stretch, windows, latestMs);
    stretch = [];
    if (burn === null) return;
    const goMs = burn.goes.reduce((sum, w) => sum + w.toMs - w.fromMs, 0);
    const ahead = burn.last.toMs > nowMs;
    const better = best === null || (ahead === best.ahead ? goMs > best.goMs : ahead);
    if (better) best = { burn, goMs, ahead };
  };
  for (const w of inFrame) {
    // A go window may carry no such finding; a hold may.
    if (w.verdict !== 'go' && w.findings.some((f) => forcesOut(f) && overlaps(f, w))) close();
    else stretch.push(w);
  }
  close();
  return (best as { burn: Burn } | null)?.burn ?? null;
}

function burnOf(stretch: readonly Window[], windows: readonly Window[], latestMs: number): Burn | null {
  const inDay = stretch.filter((w) => w.verdict === 'go');
  const first = inDay[0];
  const cut = inDay.at(-1);
  if (!first || !cut) return null;
  const whole = windowAt(windows, cut.fromMs) ?? cut;
  const last =
    whole.toMs > cut.toMs ? { ...whole, fromMs: cut.fromMs, toMs: Math.min(whole.toMs, latestMs) } : cut;
  return {
    first: first === cut ? last : first,
    last,
    goes: [...inDay.slice(0, -1), last],
    pauses: stretch.filter((w) => w.verdict !== 'go' && w.fromMs > first.fromMs && w.toMs < last.toMs),
  };
}
