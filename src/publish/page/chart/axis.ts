// The hours under a drawing: a tick for each, a name for every third on the site's clock, or fewer where the day is long.

import { clockPartsAt } from '#core/units/local-time.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { clockOf } from '#publish/wording/show.ts';
import { ANCHOR_CLASS, breadthOf, placeWords, type Wish } from './place-words.ts';
import type { TimeScale } from './time-scale.ts';

export interface Tick extends Wish {
  readonly ms: number;
  /** Null: a tick without a name. */
  readonly name: string | null;
}

/** Every whole hour of the site's clock within the scale; of two equal ones of an autumn day the first has its name. */
export function ticksOf(scale: TimeScale, timeZone: string): Tick[] {
  const found: Tick[] = [];
  let before = -1;
  // Clocks of some zones stand at the half or the quarter when the hour is whole elsewhere, or change by half an hour.
  for (let ms = scale.fromMs; ms <= scale.toMs; ) {
    const { hour, minute } = clockPartsAt(ms, timeZone);
    if (minute === 0) {
      const name = hour % 3 === 0 && hour !== before ? clockOf(hour, 0).replace(':00', '') : null;
      const breadth = name === null ? 0 : breadthOf(name);
      found.push({ ms, name, x: scale.x(ms), breadth, weight: hour % 6 === 0 ? 1 : 0 });
      before = hour;
    }
    ms += minute === 0 ? HOUR_MS : (60 - minute) * MINUTE_MS;
  }
  return found;
}

/** Ticks that hang from the top, and their names on the line `baseline` [px]. */
export function hourAxis(ticks: readonly Tick[], baseline: number): Markup {
  const named = placeWords(
    ticks.filter(({ name }) => name !== null),
    8,
  );
  const d = ticks.map(({ x, name }) => `M${Math.round(x * 10)} 0v${name === null ? 3 : 6}`).join('');
  const words = named.map(
    ({ wish, x, anchor }) =>
      html`<text class="hr${ANCHOR_CLASS[anchor]}" x="${x}%" y="${baseline}">${wish.name}</text>`,
  );
  return html`<svg class="tk" viewBox="0 0 1000 6" preserveAspectRatio="none" width="100%" height="6"><path d="${d}"/></svg>${words}`;
}
