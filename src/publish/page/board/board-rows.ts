// One pit of the board: its pin, what stands there now, and what a dispatcher asks for first.

import { telLink } from '#core/site/site-contact.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { html, type Markup, type Piece } from '#publish/page/html.ts';
import { siteLink } from '#publish/page/links.ts';
import { chip, shape } from '#publish/page/mark.ts';
import { momentAt, msOf, zoneShort } from '#publish/page/moments.ts';
import { liveMark } from '#publish/page/with-live.ts';
import type { SmokeAnswer } from '#publish/wire-smoke.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { type BoardWords, boardWords } from '#publish/wording/board-words.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import type { BoardBurn, BoardGo, BoardPits, BoardSite, BoardView } from './board-view.ts';
import { positionText } from './position-text.ts';

export function burnRow({ pin, site, live, burn, lastTap, smoke }: BoardBurn, view: BoardView): Markup {
  const { language } = view.reader;
  const words = boardWords(language);
  const own = liveWords(language);
  const at = momentsOf(site, view);
  const tap =
    lastTap === null ? words.noTap : words.tapped(own.states[lastTap.tap], at(lastTap.tappedAt), lastTap.by);
  return html`<li id="pin-${pin}">${head(pin, site, live, view)}
<p><b>${own.states[burn.state]}, ${own.since} ${at(burn.since)}.</b> ${told(live, language)}</p>
<dl class="facts">${incidentFact(live, words)}${fact(words.lit, burn.litAt === null ? words.notTold : at(burn.litAt))}${fact(words.lastTap, tap)}${fact(wordsFor(language).labels.coveredBy, coverText(live, at, words, view))}${fact(words.smoke, smokeLine(smoke, view))}${contactFacts(site, words)}</dl></li>`;
}

/** What the reader's own center calls it. */
function incidentFact(live: NowAnswer | null, words: BoardWords): Markup | null {
  const reference = live?.burn?.incidentRef ?? null;
  return reference === null ? null : fact(words.incident, reference);
}

/** They have no pin: nobody can say where they lie. */
export function unplacedRows({ unplaced, timeZone, writtenMs, reader: { language } }: BoardPits): Markup[] {
  const words = boardWords(language);
  const { states, since } = liveWords(language);
  const besides = rfc3339(writtenMs, timeZone);
  return unplaced.map(
    ({ site, burn }) =>
      html`<p class="bad"><b>${site}: ${states[burn.state]}, ${since} ${momentAt(burn.since, timeZone, language, besides)}.</b> ${words.unplaced}</p>`,
  );
}

export function goRow({ pin, site, live, windows, coveredBy, smoke }: BoardGo, view: BoardView): Markup {
  const words = boardWords(view.reader.language);
  const { labels } = wordsFor(view.reader.language);
  const at = momentsOf(site, view);
  const go = windows.map(({ from, to }) => words.between(at(from), at(to))).join('; ');
  const covered = coveredBy === null ? words.noCover : words.byPlan(at(coveredBy));
  return html`<li id="pin-${pin}">${head(pin, site, live, view)}
<p><b>${words.windows}: ${go}.</b> ${told(live, view.reader.language)}</p>
<dl class="facts">${fact(labels.coveredBy, covered)}${fact(words.smoke, smokeLine(smoke, view))}${contactFacts(site, words)}</dl></li>`;
}

const fact = (term: string, text: Piece): Markup => html`<div><dt>${term}</dt><dd>${text}</dd></div>`;

const markOf = (live: NowAnswer | null) => (live === null ? 'unsaid' : liveMark(live));

function head(pin: string, site: BoardSite, live: NowAnswer | null, { reader, query }: BoardView): Markup {
  const mark = markOf(live);
  const { pin: word } = boardWords(reader.language);
  return html`<div class="pit"><span class="pin">${shape(mark)}<b><span class="skip">${word} </span>${pin}</b></span><h3><a href="${siteLink(site.id, query, null)}">${site.name}</a></h3>${chip(mark, wordsFor(reader.language))}</div>`;
}

/** What to do, and the ground for it where it is another sentence. */
function told(live: NowAnswer | null, language: Language): string {
  const { hold } = wordsFor(language).orders;
  if (live === null) return hold;
  if (live.unknown) return `${hold} ${live.text}`;
  return live.text === live.whatToDo ? live.whatToDo : `${live.whatToDo} ${live.text}`;
}

/** On the clock of the site, with its zone where that is not the page's. */
function momentsOf({ timeZone }: BoardSite, view: BoardView): (instant: string) => string {
  const { language } = view.reader;
  const besides = rfc3339(view.writtenMs, timeZone);
  const zone = timeZone === view.timeZone ? '' : ` ${zoneShort(timeZone, language, view.writtenMs)}`;
  return (instant) => `${momentAt(instant, timeZone, language, besides)}${zone}`;
}

function coverText(
  live: NowAnswer | null,
  at: (instant: string) => string,
  words: BoardWords,
  { writtenMs }: BoardView,
): string {
  if (live === null || live.coveredBy === null) return words.noCover;
  const due = at(live.coveredBy);
  return msOf(live.coveredBy) < writtenMs ? words.overdue(due) : words.byPlan(due);
}

/** The words of the answer, and how old they are. */
function smokeLine({ text, source, at, madeAt }: SmokeAnswer, { writtenMs, reader }: BoardView): string {
  const since = source === 'observed' ? at : madeAt;
  if (since === null) return `${upperFirst(text)}.`;
  const min = Math.max(0, Math.floor((writtenMs - msOf(since)) / MINUTE_MS));
  return `${upperFirst(text)} (${wordsFor(reader.language).age(min)}).`;
}

function contactFacts({ contact, at }: BoardSite, words: BoardWords): Markup {
  const { permit, phone, directions } = contact;
  const issuer = permit?.issuer ?? null;
  const number = permit === null ? words.notTold : `${permit.number}${issuer === null ? '' : `, ${issuer}`}`;
  const call = phone === null ? words.notTold : html`<a class="tap" href="${telLink(phone)}">${phone}</a>`;
  const way = directions === null ? null : html`${directions}<br>`;
  return html`${fact(words.permit, number)}${fact(words.phone, call)}${fact(words.where, html`${way}<span class="num">${positionText(at, words)}</span>`)}`;
}
