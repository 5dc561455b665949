// A lane: one value over the hours against the bounds of its limit. Beyond a bound the ground is hatched as its verdict is
// everywhere; a missing stretch is a gap with its word. Drawn from plain data; nothing is judged here.

import { HOUR_MS, type Span } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { ANCHOR_CLASS, breadthOf, NARROWEST, placeWords, type Wish } from './place-words.ts';
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
/** Height of a word beside a line. */
const WORD_PX = 13;

export function laneScale({ hours, bounds }: Pick<Lane, 'hours' | 'bounds'>): ValueScale {
  const values = hours.flatMap(({ value }) => (value === null ? [] : [value]));
  return valueScale([...values, ...bounds.map(({ value }) => value)], { pad: PAD_PX, height: PLOT_PX });
}

export const middleMs = ({ fromMs }: Pick<LaneHour, 'fromMs'>): number => fromMs + HOUR_MS / 2;

export function laneSvg(lane: Lane, frame: Frame): Markup {
  const { scale } = frame;
  const values = laneScale(lane);
  return html`<svg class="lane" width="100%" height="${LANE_PX}" role="img" aria-label="${lane.told}">${loadingGround(frame)}${beyondGrounds(lane, scale, values)}${boundLines(lane, values)}<rect class="edge" width="100%" height="${PLOT_PX}"/>${markLines(frame)}${boundWords(lane, scale, values)}${trace(lane, scale, values)}${points(lane, scale, values)}${gaps(lane, scale)}${numbers(lane, scale)}<svg y="${PLOT_PX}">${frame.axis}</svg></svg>`;
}

function loadingGround({ loading, scale }: Frame): Markup | null {
  if (loading === null) return null;
  return html`<rect class="load" ${across(loading, scale)} height="${PLOT_PX}"/>`;
}

/** Attributes of a box over a span of time. */
export function across({ fromMs, toMs }: Span, { x }: TimeScale): Markup {
  return html`x="${x(fromMs)}%" width="${Math.round((x(toMs) - x(fromMs)) * 100) / 100}%"`;
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

/** Each beside its line: outside of the limit; where hold and stop lie too near to each other, the hold inside. */
function boundWords({ hours, bounds }: Lane, scale: TimeScale, { y }: ValueScale): Markup[] {
  return bounds.map((bound) => {
    const at = y(bound.value);
    const isTight = bounds.some(
      (b) => b !== bound && b.side === bound.side && Math.abs(y(b.value) - at) < WORD_PX,
    );
    const isAbove = (bound.side === 'atMost') === !(isTight && bound.verdict === 'hold');
    const baseline = isAbove ? at - 3 : at + WORD_PX - 2;
    const breadth = ((breadthOf(bound.label) + 8) / NARROWEST) * 100;
    // At the end that the line of the values stays farther away from.
    const apart = (isThere: (x: number) => boolean): number =>
      Math.min(
        ...hours.flatMap((hour) =>
          hour.value !== null && isThere(scale.x(middleMs(hour)))
            ? [Math.abs(y(hour.value) - (baseline - 4))]
            : [],
        ),
      );
    const isRight = apart((x) => x > 100 - breadth) > apart((x) => x < breadth);
    return isRight
      ? html`<text class="bw te" x="100%" dx="-4" y="${baseline}">${bound.label}</text>`
      : html`<text class="bw ts" x="4" y="${baseline}">${bound.label}</text>`;
  });
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

/** The word stands in the gap where it fits; what is missing is told below the lane in any case. */
function gaps({ hours, missingWord }: Lane, scale: TimeScale): Markup[] {
  return runs(hours, ({ value }) => (value === null ? true : null)).map(({ items }) => {
    const span = spanOf(items);
    const [from, to] = [scale.x(span.fromMs), scale.x(span.toMs)];
    const fits = ((to - from) / 100) * NARROWEST >= breadthOf(missingWord) + 4;
    const middle = Math.round((from + to) * 50) / 100;
    const word = fits
      ? html`<text class="gw" x="${middle}%" y="${PLOT_PX / 2 + 4}">${missingWord}</text>`
      : null;
    return html`<rect class="gap" ${across(span, scale)} height="${PLOT_PX}"/>${word}`;
  });
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
