// Where the smoke goes, hour by hour: an arrow that points downwind, north up. Rings where the wind is too light to say.

import type { Span } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { across } from './across.ts';
import { gap } from './gap.ts';
import { type Frame, spanOf } from './lane.ts';
import { middleMs } from './middle-ms.ts';
import { ANCHOR_CLASS, breadthOf, NARROWEST, placeWords, type Wish } from './place-words.ts';
import { runs } from './runs.ts';

export interface SmokeHour {
  readonly fromMs: number;
  /** Degrees clockwise from north; null where the direction is missing. */
  readonly towardDeg: number | null;
  /** Compass point, as the words under the arrows call it. */
  readonly point: string;
  readonly isUnsure: boolean;
}

export interface SmokeReach extends Span {
  readonly verdict: 'hold' | 'stop';
}

export interface SmokeLane {
  readonly hours: readonly SmokeHour[];
  /** When smoke goes toward a protected place. */
  readonly reaches: readonly SmokeReach[];
  readonly told: string;
  readonly missingWord: string;
}

export const SMOKE_PX = 34;
/** An arrow and the air beside it [px]. */
const ARROW_PX = 19;

export function smokeSvg(lane: SmokeLane, frame: Frame): Markup {
  const { scale, axis, marksMs } = frame;
  const grounds = lane.reaches.map(
    (reach) => html`<rect class="h-${reach.verdict}" ${across(reach, scale)} height="${SMOKE_PX}"/>`,
  );
  const lines = marksMs.map(
    (ms) => html`<line class="mk" x1="${scale.x(ms)}%" x2="${scale.x(ms)}%" y2="${SMOKE_PX}"/>`,
  );
  return html`<svg class="lane" width="100%" height="${SMOKE_PX + 33}" role="img" aria-label="${lane.told}">${grounds}<rect class="edge" width="100%" height="${SMOKE_PX}"/>${lines}${arrows(lane, frame)}${gaps(lane, frame)}${points(lane, frame)}<svg y="${SMOKE_PX}">${axis}</svg></svg>`;
}

/** Every hour has one where there is room, else every second, third and so on. */
function arrows({ hours }: SmokeLane, { scale }: Frame): Markup[] {
  const hourPx = NARROWEST / Math.max(1, hours.length);
  const step = Math.max(1, Math.ceil(ARROW_PX / hourPx));
  return hours.flatMap((hour, i) => {
    if (i % step !== 0 || hour.towardDeg === null) return [];
    const at = html`x="${scale.x(middleMs(hour))}%" y="${SMOKE_PX / 2}"`;
    if (hour.isUnsure) return [html`<svg ${at}><circle class="pt-d" r="5"/></svg>`];
    return [html`<svg ${at}><use href="#i-to" transform="rotate(${Math.round(hour.towardDeg)})"/></svg>`];
  });
}

const gaps = ({ hours, missingWord }: SmokeLane, { scale }: Frame): Markup[] =>
  runs(hours, ({ towardDeg }) => (towardDeg === null ? true : null)).map(({ items }) =>
    gap(spanOf(items), scale, { height: SMOKE_PX, word: missingWord, baseline: SMOKE_PX / 2 + 4 }),
  );

interface PointWish extends Wish {
  readonly point: string;
}

/** The compass point where it changes, and again where there is room. */
function points({ hours }: SmokeLane, { scale }: Frame): Markup[] {
  const wishes = hours.flatMap((hour, i): PointWish[] => {
    if (hour.towardDeg === null || hour.isUnsure) return [];
    const isNew = hours[i - 1]?.point !== hour.point;
    const weight = isNew ? 3 : Number(i % 3 === 1);
    return [{ point: hour.point, x: scale.x(middleMs(hour)), breadth: breadthOf(hour.point), weight }];
  });
  return placeWords(wishes, 6).map(
    ({ wish, x, anchor }) =>
      html`<text class="nr${ANCHOR_CLASS[anchor]}" x="${x}%" y="${SMOKE_PX + 14}">${wish.point}</text>`,
  );
}
