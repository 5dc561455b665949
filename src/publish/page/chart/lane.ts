// A lane: one value over the hours against the bounds of its limit. Beyond a bound the ground is hatched as its verdict is
// everywhere; a missing stretch is a gap with its word. Drawn from plain data; nothing is judged here.

import { HOUR_MS, type Span } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { across } from './across.ts';
import { type BoundWord, boundWords } from './bound-words.ts';
import { gap } from './gap.ts';
import { middleMs } from './middle-ms.ts';
import { ANCHOR_CLASS, breadthOf, placeWords, type Wish } from './place-words.ts';
import { runs } from './runs.ts';
import type { TimeScale } from './time-scale.ts';
import { type ValueScale, valueScale } from './value-scale.ts';

export interface LaneHour {
  readonly fromMs: number;
  /** Null where it is missing. */
  readonly value: number | null;
  /** The value as it is written. */
  readonly text: string;
  /** Null: within the limit, or the limit does not apply in this hour. */
  readonly beyond: 'hold' | 'stop' | null;
  /** Whether the limit was written for this hour. */
  readonly applies: boolean;
  readonly derived: boolean;
  /** Which numbers are written where not all have room: the larger first. */
  readonly weight: number;
}

export interface LaneBound {
  readonly value: number;
  readonly side: 'atLeast' | 'atMost';
  readonly verdict: 'hold' | 'stop';
  readonly label: string;
}

export interface Lane {
  readonly hours: readonly LaneHour[];
  readonly bounds: readonly LaneBound[];
  /** What the drawing says, for who cannot see it. */
  readonly told: string;
  readonly missingWord: string;
}

/** What band and lanes share: the axis, the time of loading, and the marks that run through all of them. */
export interface Frame {
  readonly scale: TimeScale;
  /** Ticks and names of the hours, drawn from the top down. */
  readonly axis: Markup;
  readonly loading: Span | null;
  readonly marksMs: readonly number[];
}

export const PLOT_PX = 74;
const PAD_PX = 14;
const LANE_PX = PLOT_PX + 33;

export function laneScale({ hours, bounds }: Pick<Lane, 'hours' | 'bounds'>): ValueScale {
  const values = hours.flatMap(({ value }) => (value === null ? [] : [value]));
  return valueScale([...values, ...bounds.map(({ value }) => value)], { pad: PAD_PX, height: PLOT_PX });
}

export function laneSvg(lane: Lane, frame: Frame): Markup {
  const { scale } = frame;
  const values = laneScale(lane);
  return html`<svg class="lane" width="100%" height="${LANE_PX}" role="img" aria-label="${lane.told}">${loadingGround(frame)}${beyondGrounds(lane, scale, values)}${boundLines(lane, values)}<rect class="edge" width="100%" height="${PLOT_PX}"/>${markLines(frame)}${trace(lane, scale, values)}${boundWords(lane, scale, values).map(boundWord)}${points(lane, scale, values)}${gaps(lane, scale, values)}${numbers(lane, scale)}<svg y="${PLOT_PX}">${frame.axis}</svg></svg>`;
}

function loadingGround({ loading, scale }: Frame): Markup | null {
  if (loading === null) return null;
  return html`<rect class="load" ${across(loading, scale)} height="${PLOT_PX}"/>`;
}

/** Where the limit holds for some hours only, only they are hatched. */
function beyondGrounds({ hours, bounds }: Lane, scale: TimeScale, values: ValueScale): Markup[] {
  const spans = runs(hours, ({ applies }) => (applies ? true : null)).map(({ items }) => spanOf(items));
  return bounds.flatMap((bound) => {
    const [top, bottom] = beyondEdges(bound, bounds, values);
    if (bottom <= top) return [];
    const height = Math.round((bottom - top) * 10) / 10;
    return spans.map(
      (span) => html`<rect class="h-${bound.verdict}" ${across(span, scale)} y="${top}" height="${height}"/>`,
    );
  });
}

export const spanOf = (hours: readonly Pick<LaneHour, 'fromMs'>[]): Span => ({
  fromMs: hours[0]?.fromMs ?? 0,
  toMs: (hours.at(-1)?.fromMs ?? 0) + HOUR_MS,
});

/** Top and bottom of what lies beyond a bound: to where the stop of the same side begins, else to the edge. */
export function beyondEdges(
  { side, verdict, value }: LaneBound,
  bounds: readonly LaneBound[],
  { y }: ValueScale,
): [number, number] {
  const stop = verdict === 'hold' ? bounds.find((b) => b.side === side && b.verdict === 'stop') : undefined;
  const edge = side === 'atMost' ? 0 : PLOT_PX;
  const end = stop === undefined ? edge : y(stop.value);
  return side === 'atMost' ? [end, y(value)] : [y(value), end];
}

const boundLines = ({ bounds }: Lane, { y }: ValueScale): Markup[] =>
  bounds.map(
    ({ value, verdict }) => html`<line class="bd ${verdict}s" x2="100%" y1="${y(value)}" y2="${y(value)}"/>`,
  );

function boundWord({ label, x, baseline }: BoundWord): Markup {
  if (x === 0) return html`<text class="bw ts" x="4" y="${baseline}">${label}</text>`;
  const edge = x === 100 ? ' te' : '';
  return html`<text class="bw${edge}" x="${x}%"${edge === '' ? null : html` dx="-4"`} y="${baseline}">${label}</text>`;
}

const markLines = ({ marksMs, scale }: Frame): Markup[] =>
  marksMs.map((ms) => html`<line class="mk" x1="${scale.x(ms)}%" x2="${scale.x(ms)}%" y2="${PLOT_PX}"/>`);

/** The line through the middles of the hours; it breaks where a value is missing. */
function trace({ hours }: Lane, { x }: TimeScale, { y }: ValueScale): Markup {
  const lines = runs(hours, ({ value }) => (value === null ? null : true)).map(({ items }) =>
    items.map((hour) => `${Math.round(x(middleMs(hour)) * 10)} ${y(hour.value ?? 0)}`).join('L'),
  );
  const d = lines.map((line) => `M${line}`).join('');
  return html`<svg class="tr" viewBox="0 0 1000 ${PLOT_PX}" preserveAspectRatio="none" width="100%" height="${PLOT_PX}"><path d="${d}"/></svg>`;
}

/** Squares beyond a bound, hollow rings on derived values, and a dot where a value stands alone. */
function points({ hours }: Lane, { x }: TimeScale, { y }: ValueScale): Markup[] {
  return hours.flatMap((hour, i) => {
    if (hour.value === null) return [];
    const at = html`x="${x(middleMs(hour))}%" y="${y(hour.value)}"`;
    if (hour.beyond !== null)
      return [html`<rect class="pt-${hour.derived ? 'd' : 'o'}" ${at} width="7" height="7"/>`];
    const isAlone = (hours[i - 1]?.value ?? null) === null && (hours[i + 1]?.value ?? null) === null;
    if (!hour.derived && !isAlone) return [];
    return [
      html`<circle class="pt${hour.derived ? '-d' : ''}" cx="${x(middleMs(hour))}%" cy="${y(hour.value)}" r="3"/>`,
    ];
  });
}

function gaps({ hours, missingWord }: Lane, scale: TimeScale, { y }: ValueScale): Markup[] {
  return runs(hours, ({ value }) => (value === null ? true : null)).map(({ items }) => {
    const span = spanOf(items);
    const first = hours.findIndex(({ fromMs }) => fromMs === span.fromMs);
    const beside = [hours[first - 1], hours[first + items.length]].flatMap((hour) =>
      hour?.value == null ? [] : [y(hour.value)],
    );
    return gap(span, scale, { height: PLOT_PX, word: missingWord, baseline: clearOf(beside) });
  });
}

/** The height at which a word keeps clear of the values beside it. */
function clearOf(beside: readonly number[]): number {
  const air = (middle: number): number => Math.min(99, ...beside.map((y) => Math.abs(y - middle)));
  const middle = [PLOT_PX / 2, PLOT_PX / 5, (PLOT_PX * 4) / 5].reduce((a, b) => (air(b) > air(a) ? b : a));
  return Math.round(middle) + 4;
}

interface NumberWish extends Wish {
  readonly hour: LaneHour;
}

function numbers({ hours }: Lane, { x }: TimeScale): Markup[] {
  const wishes = hours.flatMap((hour): NumberWish[] => {
    if (hour.value === null) return [];
    const text = hour.derived ? `${hour.text}d` : hour.text;
    return [
      { hour, x: x(middleMs(hour)), breadth: breadthOf(text, hour.beyond !== null), weight: hour.weight },
    ];
  });
  return placeWords(wishes, 6).map(({ wish, x: at, anchor }) => {
    const { text, derived, beyond } = wish.hour;
    const d = derived ? html`<tspan class="d">d</tspan>` : null;
    const kind = `nr${beyond === null ? '' : ' o'}${ANCHOR_CLASS[anchor]}`;
    return html`<text class="${kind}" x="${at}%" y="${PLOT_PX + 14}">${text}${d}</text>`;
  });
}
