// The page of one site and one day. The answer, the three times and the age of the forecast come first; the rest is why.

import { glanceWords } from '#publish/wording/glance-words.ts';
import { historyWords } from '#publish/wording/history-words.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import { ageLine, answerBlock, answerLine, dayName, threeTimes } from './answer-block.ts';
import { dayCharts } from './day-charts.ts';
import { dayText } from './day-text.ts';
import { drawnOnce } from './drawn-once.ts';
import { hourNames } from './hour-names.ts';
import { hourTable } from './hour-table.ts';
import { html } from './html.ts';
import { glanceLink, historyLink, playLink, sheetLink } from './links.ts';
import { liveBlock } from './live-block.ts';
import { msOf } from './moments.ts';
import { nowBlock } from './now-block.ts';
import type { Phone } from './phone-marks.ts';
import { readingForm } from './reading-form.ts';
import { page } from './shell.ts';
import { silenceBlock } from './silence-block.ts';
import type { SiteView } from './site-view.ts';
import type { Standing } from './standing.ts';
import { unmeasuredLine } from './unmeasured.ts';
import { weekList } from './week-list.ts';
import { whatYouDo } from './what-you-do.ts';
import { adviceSection, changeSection, whySection, windowList } from './why.ts';
import { isBegun, standingOfView } from './with-live.ts';

export type { SiteView } from './site-view.ts';

export function sitePage(view: SiteView): string {
  const { plan, nowMs, reader, query } = view;
  const standing = standingOfView(view, plan);
  const live = liveBlock(view);
  const reading = view.reading && readingForm(view.reading, reader, query);
  const isVoid = standing.state === 'void';
  const names = () => hourNames(view.hours, plan, reader.language);
  const charts = isVoid ? null : drawnOnce(view, 'charts', () => dayCharts(view, names()));
  const table = drawnOnce(view, `table ${isVoid}`, () => hourTable(view, isVoid, names()));
  // A void answer explains nothing: its times and their causes are withdrawn with it.
  const why = isVoid ? null : html`${whySection(view)}${changeSection(view)}${adviceSection(view)}`;
  const canPlay = view.canPlay
    ? html`<p><a class="tap" href="${playLink(query)}">${liveWords(reader.language).play}</a></p>`
    : null;
  const then = view.hasHistory
    ? html`<p class="scr"><a class="tap" href="${historyLink(plan.site, query, plan.day)}">${historyWords(reader.language).link}</a></p>`
    : null;
  const toGlance =
    view.live &&
    html`<p><a class="tap" href="${glanceLink(plan.site, query)}">${glanceWords(reader.language).toGlance}</a></p>`;
  const sheet = view.hasSheet
    ? html`<p class="scr"><a class="tap" href="${sheetLink(plan.site, query, plan.day)}">${sheetWords(reader.language).link}</a></p>`
    : null;
  return page({
    title: `${plan.name}, ${dayName(view)}: ${answerLine(view, standing)}`,
    language: reader.language,
    demo: plan.demo,
    choice: { units: reader.units, query },
    zone: { timeZone: plan.timeZone, atMs: nowMs },
    isHome: false,
    ...(view.phone ? { phone: dayPhone(view, standing, view.phone) } : {}),
    main: html`<div class="if-good"><div class="cols"><div>${answerBlock(view, standing)}${threeTimes(view, standing)}${live}${unmeasuredLine(view.live)}${silenceBlock(view)}${ageLine(view)}${toGlance}${reading}${live === null ? nowBlock(view, standing) : null}${canPlay}${charts}</div>
<div>${whatYouDo(view, standing)}${why}${weekList(view)}${isVoid ? null : dayText(view)}</div></div>
${isVoid ? null : windowList(view)}${table}${sheet}${then}</div>`,
  });
}

/** A go of the page ends with the plan's own, and with the moment from which the day would be told otherwise. */
function dayPhone(view: SiteView, { mark }: Standing, phone: Pick<Phone, 'reader' | 'scripts'>): Phone {
  const { plan, now, live, nowMs, reader } = view;
  const ofDay = mark === 'go' ? [plan.lightUpBy, plan.lastCharge, ...plan.pauses.map((p) => p.from)] : [];
  const isToday = view.dayLabel === 'today';
  const ofNow = now?.verdict === 'go' && isToday ? [now.to] : [];
  const isGoNow = isToday && (ofNow.length > 0 || (mark === 'go' && isBegun(plan.lightUp, nowMs)));
  const isLit = live?.verdict === 'go' && live.burn !== null;
  const ofLive = live !== null && (isLit || isGoNow) ? [live.goodUntil] : [];
  const ends = [plan.goodUntil, ...ofDay, ...ofNow, ...ofLive]
    .flatMap((at) => (at === null ? [] : [msOf(at)]))
    .filter((ms) => ms > nowMs);
  return {
    ...phone,
    ...{ writtenMs: nowMs, timeZone: plan.timeZone, language: reader.language },
    voidAtMs: ends.length === 0 ? null : Math.min(...ends),
  };
}
