// The day in drawings on one axis: the band with the marks of the burn, a lane for each limit, and where the smoke goes.

import { overlaps, type Span } from '#core/units/time.ts';
import { hourAxis, ticksOf } from '#publish/page/chart/axis.ts';
import { type Block, bandSvg } from '#publish/page/chart/band.ts';
import { type DayMark, dayMarks, type WantedMark } from '#publish/page/chart/day-marks.ts';
import type { Frame } from '#publish/page/chart/lane.ts';
import { timeScale } from '#publish/page/chart/time-scale.ts';
import { chartWords } from '#publish/wording/chart-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { drawnSpan } from './drawn-span.ts';
import { html, type Markup } from './html.ts';
import { inOrder, laneFacts, loadingOf } from './lane-facts.ts';
import { limitLane } from './limit-lanes.ts';
import { clockAt, msOf } from './moments.ts';
import { timeOf } from './plan-text.ts';
import { shutTimes } from './reasons.ts';
import type { SiteView } from './site-view.ts';
import { smokeLane } from './smoke-lane.ts';

const AXIS_BASELINE_PX = 20;
/** In a lane the numbers stand between the ticks and the names of the hours. */
const LANE_BASELINE_PX = 30;

/** `names`: of the hours, in their order. */
export function dayCharts(view: SiteView, names: readonly string[]): Markup {
  const { windows, plan, reader } = view;
  const { language } = reader;
  const shut = shutTimes(windows.windows);
  const span = drawnSpan(view, shut);
  const scale = timeScale(span);
  const ticks = ticksOf(scale, plan.timeZone);
  const marks = dayMarks(wantedMarks(view, span), scale);
  const frame: Frame = {
    scale,
    axis: hourAxis(ticks, LANE_BASELINE_PX),
    loading: loadingOf(plan),
    marksMs: marks.map(({ ms }) => ms),
  };
  const facts = inOrder(laneFacts(view, names, { span, shut }), plan);
  const band = bandOf(view, shut, marks);
  const notes = [...(shut.length > 0 ? [wordsFor(language).labels.dotsAre] : []), ...otherGo(view)];
  return html`<h2>${wordsFor(language).labels.theDay}</h2><div class="day">${bandSvg(band, { ...frame, axis: hourAxis(ticks, AXIS_BASELINE_PX) })}
<p class="note">${notes.join(' ')}</p><div class="scr">${facts.map((f) => limitLane(f, frame, language))}</div>${smokeLane(view, names, frame)}</div>`;
}

/** Go that is no part of the day's burn. */
function otherGo({ windows, plan, reader }: SiteView): string[] {
  const burn = loadingOf(plan);
  if (burn === null) return [];
  const { verdicts, labels } = wordsFor(reader.language);
  return windows.windows.flatMap((w) => {
    const isBurn = overlaps(burn, { fromMs: msOf(w.from), toMs: msOf(w.to) });
    if (w.verdict !== 'go' || isBurn) return [];
    const [from, to] = [timeOf(w.from, plan, reader.language), timeOf(w.to, plan, reader.language)];
    return [`${labels.besides}: ${verdicts.go}, ${from} – ${to}.`];
  });
}

function wantedMarks({ plan, reader }: SiteView, span: Span): WantedMark[] {
  const { marks } = chartWords(reader.language);
  return (['lightUp', 'lastCharge', 'coveredBy'] as const).flatMap((time) => {
    const instant = plan[time];
    if (instant === null) return [];
    const ms = msOf(instant);
    const isShown = overlaps({ fromMs: ms, toMs: ms + 1 }, { fromMs: span.fromMs, toMs: span.toMs + 1 });
    if (!isShown) return [];
    const moment = timeOf(instant, plan, reader.language);
    return [{ ms, label: marks[time], moment, clock: clockAt(instant, plan.timeZone) }];
  });
}

function bandOf({ windows, plan, reader }: SiteView, shut: readonly Span[], marks: readonly DayMark[]) {
  const words = wordsFor(reader.language);
  const blocks = windows.windows.map(
    (w): Block => ({
      fromMs: msOf(w.from),
      toMs: msOf(w.to),
      kind: w.verdict,
      word: words.verdicts[w.verdict],
    }),
  );
  const told = windows.windows
    .map((w) => `${words.verdicts[w.verdict]} ${words.labels.from} ${timeOf(w.from, plan, reader.language)}`)
    .join(', ');
  return { blocks, shut, marks, told: `${words.labels.theDay}: ${told}.` };
}
