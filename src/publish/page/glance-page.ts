// The glance: one word, one sentence, what to do, what changed, what comes next, and the taps. For a gloved hand in a cab.

import { copyWords } from '#publish/wording/copy-words.ts';
import { glanceWords } from '#publish/wording/glance-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { GLANCE_STYLE } from './glance-style.ts';
import { seenButton, tapForm } from './glance-taps.ts';
import type { GlanceView } from './glance-view.ts';
import { html, type Markup } from './html.ts';
import { siteLink } from './links.ts';
import { shape, wordOf } from './mark.ts';
import { momentAt, msOf } from './moments.ts';
import { nextMoment } from './next-moment.ts';
import { ago, away, voidLine } from './phone-marks.ts';
import { page } from './shell.ts';
import { silenceList } from './silence-block.ts';
import type { Mark } from './standing.ts';
import { unmeasuredText } from './unmeasured.ts';
import { liveMark } from './with-live.ts';

export function glancePage(view: GlanceView): string {
  const { live, reader, query, phone } = view;
  const words = glanceWords(reader.language);
  const mark = liveMark(live);
  return page({
    title: `${wordOf(mark, wordsFor(reader.language))}: ${live.name}, ${words.title}`,
    language: reader.language,
    demo: live.demo,
    choice: { units: reader.units, query },
    zone: { timeZone: live.timeZone, atMs: msOf(live.asOf) },
    isHome: false,
    main: html`<div class="glance" id="glance" data-mark="${mark}" data-burning="${live.burn === null ? '' : '1'}" data-site="${live.site}" data-words="${scriptWords(reader.language)}"><p class="lost" id="lost" role="status"></p>${call(view, mark)}${whatToDo(view)}${changed(view)}${silenceList(live, reader.language)}${next(view)}${seenButton(view)}<div class="queue" id="queue" role="status"></div>${tapForm(view)}<p class="sound" hidden><button type="button" id="sound"></button></p>${ages(view)}<p><a class="tap" href="${siteLink(live.site, query, null)}">${words.toDay}</a></p></div>`,
    phone,
    style: GLANCE_STYLE,
  });
}

/** What the script says, in the language of the page. */
function scriptWords(language: Language): string {
  const { lost, pageOld, sound, soundOn, waiting, waitingOne, signIn, otherKey, refused, refusedSeen } =
    copyWords(language);
  return JSON.stringify({
    ...{ lost, pageOld, sound, soundOn, waiting, waitingOne, signIn, otherKey, refused, refusedSeen },
  });
}

/** Words of more letters are set smaller, so that each stays on one line of a narrow phone. */
function sizeOf(word: string): string {
  if (word.length > 6) return ' long';
  return word.length > 4 ? ' wide' : '';
}

function call({ live, reader, phone }: GlanceView, mark: Mark): Markup {
  const { language } = reader;
  const word = wordOf(mark, wordsFor(language));
  const at = momentAt(live.asOf, live.timeZone, language, null);
  const until = voidLine(phone);
  return html`<section class="big ${mark} if-good"><h1>${live.name}. ${upperFirst(glanceWords(language).title)}, ${at}<span class="skip">: </span>
<span class="w${sizeOf(word)}">${shape(mark)}${word}</span></h1><p class="s">${live.text}</p>${until === null ? null : html`<p class="note">${until}</p>`}</section>`;
}

/** The order of the verdict; where the pit burns what it means for that fire. */
function whatToDo({ live, reader }: GlanceView): Markup {
  const { burning, doThis } = glanceWords(reader.language);
  return html`<p class="box if-good"><b>${doThis}</b> ${orderOf(live, burning, wordsFor(reader.language).orders)}</p>`;
}

function orderOf(
  { burn, verdict }: GlanceView['live'],
  burning: ReturnType<typeof glanceWords>['burning'],
  orders: ReturnType<typeof wordsFor>['orders'],
): string {
  if (burn === null || verdict === 'stop') return orders[verdict];
  if (burn.state === 'burning-down' || burn.state === 'put-out-early') return burning[burn.state];
  return verdict === 'go' ? burning.charge : burning.hold;
}

/** What was told last and is not over. */
function changed({ live, reader }: GlanceView): Markup {
  const { language } = reader;
  const words = glanceWords(language);
  const told = live.notices.filter(({ raisedAt }) => raisedAt !== null);
  const [newest] = told.toSorted((a, b) => msOf(b.raisedAt ?? '') - msOf(a.raisedAt ?? ''));
  if (newest === undefined) return html`<p class="box if-good">${words.unchanged}</p>`;
  const at = momentAt(newest.raisedAt ?? '', live.timeZone, language, live.asOf);
  // Of this notice alone: that another was seen says nothing of it.
  const { acknowledgedBy: by } = newest;
  const seen = by === null ? null : html` <b>${words.seenBy} ${by}.</b>`;
  return html`<p class="box if-good"><b>${words.changed} ${at}:</b> ${newest.condition.text}${seen}</p>`;
}

function next({ live, reader }: GlanceView): Markup {
  const { language } = reader;
  const words = glanceWords(language);
  const moment = nextMoment(live);
  if (moment === null) return html`<p class="box if-good"><b>${words.next}</b> ${words.nothingNext}</p>`;
  const { timeZone, asOf } = live;
  const at = words.at(momentAt(moment.at, timeZone, language, asOf));
  return html`<p class="box if-good"><b>${words.next}</b> ${words.moments[moment.what]} ${away(msOf(moment.at), msOf(asOf), language)}, <b class="num"><time datetime="${moment.at}">${at}</time></b></p>`;
}

/** Forecast, station and page each have an age of their own. */
function ages({ live, reader, phone }: GlanceView): Markup {
  const { language } = reader;
  const words = glanceWords(language);
  const { timeZone, asOf, forecastMadeAt, observation } = live;
  const at = (instant: string) => momentAt(instant, timeZone, language, asOf);
  const age = (instant: string): Markup => ago(msOf(instant), phone.writtenMs, words.old);
  const forecast =
    forecastMadeAt === null
      ? words.noForecast
      : html`${words.forecast} ${at(forecastMadeAt)} (${age(forecastMadeAt)}).`;
  const station =
    observation === null
      ? (unmeasuredText(live) ?? words.noStation)
      : html`${words.station} ${observation.station} ${at(observation.observedAt)} (${age(observation.observedAt)}).`;
  return html`<p class="age">${forecast} ${station} ${words.written} ${at(asOf)} (${age(asOf)}).</p>`;
}
