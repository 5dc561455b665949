// The lane of the smoke: toward where it goes in each hour, what it reaches, and what to keep off.

import { HOUR_MS, overlaps, type Span } from '#core/units/time.ts';
import type { Frame } from '#publish/page/chart/lane.ts';
import { runs } from '#publish/page/chart/runs.ts';
import { type SmokeHour, smokeSvg } from '#publish/page/chart/smoke-lane.ts';
import type { Reason } from '#publish/wire.ts';
import { chartWords } from '#publish/wording/chart-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { bearingText, pointText } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { msOf } from './moments.ts';
import { toldOnce } from './reasons.ts';
import type { SiteView } from './site-view.ts';

/** More turns than this are left to the table. */
const MOST_TURNS = 6;

interface NamedHour extends SmokeHour {
  readonly name: string;
}

export function smokeLane(view: SiteView, names: readonly string[], frame: Frame): Markup {
  const { windows, reader, keepOff } = view;
  const { language } = reader;
  const words = chartWords(language);
  const reasons = windows.windows.flatMap((w) => w.reasons);
  const reaches = reasons.filter((r) => r.code === 'smoke-reaches' && overlaps(spanOf(r), frame.scale));
  const hours = smokeHours(view, names, frame, reasons.filter((r) => r.code === 'smoke-unsure').map(spanOf));
  const turns = turnsOf(hours, view);
  const told = turns.slice(0, MOST_TURNS).join(', ');
  const more = turns.length > MOST_TURNS ? ` ${words.moreBelow}` : '';
  const { smokeGoesToward } = wordsFor(language).labels;
  const drawn = {
    hours,
    reaches: reaches.map((r) => ({
      ...spanOf(r),
      verdict: r.verdict === 'stop' ? ('stop' as const) : ('hold' as const),
    })),
    told: `${smokeGoesToward}: ${turns.join(', ')}.`,
    missingWord: words.missing,
  };
  const off = keepOff.map((p) =>
    words.keepOff(p.name, bearingText(p.fromDeg, language), bearingText(p.toDeg, language)),
  );
  const notes = [`${told}.${more}`, ...toldOnce(reaches).map((r) => r.text), ...off, words.arrows];
  return html`<h3 class="lh">${smokeGoesToward}</h3>${smokeSvg(drawn, frame)}<p class="note">${notes.join(' ')}</p>`;
}

const spanOf = ({ from, to }: Reason): Span => ({ fromMs: msOf(from), toMs: msOf(to) });

function smokeHours(
  { hours, reader }: SiteView,
  names: readonly string[],
  { scale }: Frame,
  unsure: readonly Span[],
): NamedHour[] {
  return hours.hours.flatMap((hour, i): NamedHour[] => {
    const fromMs = msOf(hour.from);
    const span = { fromMs, toMs: fromMs + HOUR_MS };
    if (!overlaps(span, scale)) return [];
    const towardDeg = hour.smokeGoesToward;
    const point = towardDeg === null ? '' : pointText(towardDeg, reader.language);
    const isUnsure = unsure.some((u) => overlaps(u, span));
    return [{ fromMs, name: names[i] ?? '', towardDeg, point, isUnsure }];
  });
}

/** "NE (40°) from 6:00 am": one for each run of hours with the same point. */
function turnsOf(hours: readonly NamedHour[], { reader: { language } }: SiteView): string[] {
  const words = chartWords(language);
  const keyOf = ({ towardDeg, point, isUnsure }: NamedHour): string => {
    if (towardDeg === null) return words.missing;
    return isUnsure ? words.smokeUnsure : point;
  };
  return runs(hours, keyOf).map(({ key, items }) => {
    const first = items[0];
    const deg = first?.towardDeg ?? null;
    const toward = deg === null || first?.isUnsure ? key : degreesText(items, language);
    return words.smokeFrom(toward, first?.name ?? '');
  });
}

/** "NE (38° to 49°)" where the degrees differ within the run. */
function degreesText(hours: readonly NamedHour[], language: SiteView['reader']['language']): string {
  const all = hours.map(({ towardDeg }) => Math.round(towardDeg ?? 0) % 360);
  const first = hours[0];
  const text = bearingText(first?.towardDeg ?? 0, language);
  if (all.every((deg) => deg === all[0])) return text;
  // North lies in the midst of its own run: counted from it, the smallest is the one farthest to the left.
  const fromNorth = (deg: number): number => (first?.point === 'N' && deg > 180 ? deg - 360 : deg);
  const sorted = [...all].sort((a, b) => fromNorth(a) - fromNorth(b));
  return text.replace(/\(.*\)/, `(${sorted[0]}°–${sorted.at(-1)}°)`);
}
