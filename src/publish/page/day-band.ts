// The day as a band: one block per window with its pattern, the three marks, and the hours of the site's clock.

import { clockPartsAt } from '#core/units/local-time.ts';
import { ceilToHour, floorToHour, HOUR_MS } from '#core/units/time.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { clockOf } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import { html, type Markup } from './html.ts';
import { clockAt, msOf } from './moments.ts';
import { timeOf } from './plan-text.ts';
import { type Stretch, shutTimes } from './reasons.ts';
import type { SiteView } from './site-view.ts';

const WIDTH = 358;
const EDGE = 10;
const TOP = 70;
const HEIGHT = 30;
/** Breadth of a letter at most, bold, at this font size; words must fit by it on any device. */
const LETTER = 7.5;
const CAPITAL = 10;

interface Scale extends Stretch {
  x(ms: number): number;
}

export function dayBand(view: SiteView): Markup {
  const { windows, plan, reader } = view;
  const words = wordsFor(reader.language);
  const shut = shutTimes(windows.windows);
  const scale = scaleOf(windows.windows, shut, { fromMs: msOf(windows.from), toMs: msOf(windows.to) });
  const marks = marksOf(view, scale);
  const blocks = windows.windows.map((w) =>
    block(w.verdict, { fromMs: msOf(w.from), toMs: msOf(w.to) }, scale),
  );
  const dotted = shut.map((s) => block('shut', s, scale));
  const named = windows.windows.map((w) => blockWord(words.verdicts[w.verdict], w, shut, marks, scale));
  const above = marks.length === 0 ? TOP - 22 : 0;
  const told = windows.windows
    .map((w) => `${words.verdicts[w.verdict]} ${words.labels.from} ${timeOf(w.from, plan, reader.language)}`)
    .join(', ');
  return html`<h2>${words.labels.theDay}</h2><div class="band"><svg viewBox="0 ${above} ${WIDTH} ${122 - above}" role="img" aria-label="${words.labels.theDay}: ${told}.">${blocks}${dotted}${ticks(scale, plan.timeZone)}${named}${marks.map(markLine)}</svg></div>
<p class="note">${shut.length > 0 ? words.labels.dotsAre : null}</p>`;
}

/** From an hour before the first open time to an hour after the last; the whole day where none is open. */
function scaleOf(windows: SiteView['windows']['windows'], shut: readonly Stretch[], whole: Stretch): Scale {
  const isShut = (ms: number) => shut.some((s) => s.fromMs <= ms && ms + HOUR_MS / 4 <= s.toMs);
  const open: number[] = [];
  for (let ms = whole.fromMs; ms < whole.toMs; ms += HOUR_MS / 4) if (!isShut(ms)) open.push(ms);
  const first = open[0];
  const last = open.at(-1);
  const hasOpen = windows.length > 0 && first !== undefined && last !== undefined;
  const fromMs = hasOpen ? Math.max(whole.fromMs, floorToHour(first - HOUR_MS)) : whole.fromMs;
  const toMs = hasOpen ? Math.min(whole.toMs, ceilToHour(last + HOUR_MS)) : whole.toMs;
  const x = (ms: number) => {
    const part = (Math.min(toMs, Math.max(fromMs, ms)) - fromMs) / (toMs - fromMs);
    return Math.round((EDGE + part * (WIDTH - 2 * EDGE)) * 10) / 10;
  };
  return { fromMs, toMs, x };
}

function block(kind: string, { fromMs, toMs }: Stretch, { x }: Scale): Markup | null {
  const width = Math.round((x(toMs) - x(fromMs)) * 10) / 10;
  return width <= 0
    ? null
    : html`<rect class="b-${kind}" x="${x(fromMs)}" y="${TOP}" width="${width}" height="${HEIGHT}"/>`;
}

/** The verdict over its block: in the widest part that neither dots nor a mark take, where it fits. */
function blockWord(
  word: string,
  window: SiteView['windows']['windows'][number],
  shut: readonly Stretch[],
  marks: readonly DayMark[],
  { x }: Scale,
): Markup | null {
  const edges = [x(msOf(window.from)), x(msOf(window.to))] as const;
  const cuts = [...marks.map((m) => m.x), ...shut.flatMap((s) => [x(s.fromMs), x(s.toMs)])];
  const inside = cuts.filter((c) => c > edges[0] && c < edges[1]).sort((a, b) => a - b);
  const points = [edges[0], ...inside, edges[1]];
  const dotted = shut.map((s) => [x(s.fromMs), x(s.toMs)] as const);
  let best: { middle: number; width: number } | null = null;
  for (const [i, to] of points.slice(1).entries()) {
    const from = points[i] ?? to;
    const isDotted = dotted.some(([a, b]) => a <= from && to <= b);
    if (!isDotted && (best === null || to - from > best.width))
      best = { middle: (from + to) / 2, width: to - from };
  }
  if (best === null || best.width < word.length * CAPITAL + 6) return null;
  return html`<text class="m" x="${Math.round(best.middle)}" y="${TOP - 6}" text-anchor="middle">${word}</text>`;
}

interface DayMark {
  readonly x: number;
  readonly label: string;
  readonly clock: string;
  readonly row: number;
  readonly anchor: 'start' | 'end';
}

/** Each mark has a row of its own, so that no two marks' words can meet. */
function marksOf({ plan, reader }: SiteView, { x }: Scale): DayMark[] {
  const { labels } = wordsFor(reader.language);
  const wanted = [
    [labels.lightUp, plan.lightUp],
    [labels.lastCharge, plan.lastCharge],
    [labels.coveredBy, plan.coveredBy],
  ] as const;
  const marks = wanted.flatMap(([label, instant], row): DayMark[] => {
    if (instant === null) return [];
    const at = x(msOf(instant));
    const breadth = (text: string) => 5 + (label.length + 1 + text.length) * LETTER;
    const dated = timeOf(instant, plan, reader.language);
    const isRoom = at + breadth(dated) <= WIDTH || at >= breadth(dated);
    const clock = isRoom ? dated : clockAt(instant, plan.timeZone);
    const fits = at + breadth(clock) <= WIDTH;
    return [{ x: at, label: lowerFirst(label), clock, row, anchor: fits ? 'start' : 'end' }];
  });
  // Words that run to the left stay clear of the earlier mark's line where they stand above its beginning.
  const [, second, third] = marks;
  const bothLeft = second?.anchor === 'end' && third?.anchor === 'end';
  return bothLeft ? marks.map((m) => ({ ...m, row: m.row === 0 ? 0 : 3 - m.row })) : marks;
}

function markLine({ x, label, clock, row, anchor }: DayMark): Markup {
  const y = 13 + row * 17;
  const words = html`<text class="m l" x="${anchor === 'start' ? x + 5 : x - 5}" y="${y}" text-anchor="${anchor}">${label} <tspan>${clock}</tspan></text>`;
  return html`<path class="line" d="M${x} ${y - 10}V${TOP + HEIGHT + 6}"/>${words}`;
}

function ticks({ x, fromMs, toMs }: Scale, timeZone: string): Markup[] {
  const found: Markup[] = [];
  const y = TOP + HEIGHT;
  for (let ms = ceilToHour(fromMs); ms <= toMs; ms += HOUR_MS) {
    const { hour, minute } = clockPartsAt(ms, timeZone);
    const isNamed = hour % 3 === 0 && minute === 0;
    found.push(html`<path class="line" d="M${x(ms)} ${y}v${isNamed ? 7 : 4}"/>`);
    if (!isNamed) continue;
    const name = clockOf(hour, 0).replace(':00', '');
    found.push(html`<text x="${x(ms)}" y="${y + 20}" text-anchor="${anchorAt(x(ms))}">${name}</text>`);
  }
  return found;
}

/** At the edges a word about its middle would lie half outside. */
function anchorAt(x: number): 'start' | 'middle' | 'end' {
  if (x < 22) return 'start';
  return x > WIDTH - 22 ? 'end' : 'middle';
}
