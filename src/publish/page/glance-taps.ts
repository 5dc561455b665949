// The taps of the glance, as one form: the sensible next one large, the others and what puts a tap right below. A button
// says what it does in its value: "lit", "charging BURN", "undo BURN TAP", "move BURN TAP", "seen".

import type { BurnAnswer } from '#publish/wire-watch.ts';
import { glanceWords } from '#publish/wording/glance-words.ts';
import type { Language } from '#publish/wording/show.ts';
import type { GlanceView } from './glance-view.ts';
import { html, type Markup } from './html.ts';
import { glanceLink } from './links.ts';
import { clockAt, momentAt } from './moments.ts';
import { pitWords } from './pit-words.ts';

type Kind = BurnAnswer['state'];
type Verdict = GlanceView['live']['verdict'];

/** What a crew does next, the likeliest first. */
const NEXT: Readonly<Record<Kind, readonly Kind[]>> = {
  lit: ['charging', 'burning-down'],
  charging: ['burning-down'],
  'burning-down': ['covered'],
  'put-out-early': ['covered'],
  covered: ['lit'],
};
const ALL: readonly Kind[] = ['lit', 'charging', 'burning-down', 'covered', 'put-out-early'];

const FORM = 'taps';

/** Null where nothing asks for an answer. The messages are named: nobody acknowledges what they were not shown. */
export function seenButton({ toAnswer, taps, reader }: GlanceView): Markup | null {
  if (taps === null || toAnswer.length === 0) return null;
  return html`<input type="hidden" name="messages" value="${toAnswer.join(' ')}" form="${FORM}"><p><button form="${FORM}" name="do" value="seen">${glanceWords(reader.language).seen}</button></p>`;
}

export function tapForm(view: GlanceView): Markup {
  const { live, taps, others, reader, query } = view;
  const words = glanceWords(reader.language);
  if (taps === null) return html`<p class="note">${words.mayNotTap}</p>`;
  const { burn } = live;
  const large =
    burn === null ? [button('lit', words.taps.lit)] : nextTaps(burn, live.verdict, reader.language);
  return html`<form id="${FORM}" method="post" action="${glanceLink(live.site, query)}"><input type="hidden" name="form" value="${taps.form}"><h2>${words.tapNow}</h2>${named(view)}<div class="large">${large}</div><template id="all-taps" data-next="${nextWords(live.verdict)}">${ALL.map((kind) => html`<button name="do" data-kind="${kind}">${words.taps[kind]}</button>`)}</template>
<p><label for="by">${words.nameLabel}</label> <span class="note" id="by-hint">${words.nameHint(taps.key)}</span><input class="who" id="by" name="by" maxlength="120" autocomplete="name" aria-describedby="by-hint" value="${taps.by}"></p>
<details class="second"><summary>${words.tapOther}</summary>${burn === null ? null : otherTaps(burn, live.verdict, reader.language)}${corrections(view)}${others.map((other) => ofOther(view, other))}${burn === null ? null : html`<p>${button('lit', words.anotherPit)}</p>`}</details></form>`;
}

const button = (value: string, label: string): Markup =>
  html`<button name="do" value="${value}">${label}</button>`;

/** Under a stop nobody is to be led to charge. */
const nextOf = ({ state }: Pick<BurnAnswer, 'state'>, verdict: Verdict): readonly Kind[] =>
  verdict === 'stop' && (state === 'lit' || state === 'charging')
    ? ['put-out-early', 'burning-down']
    : NEXT[state];

/** For a tap that waits on the phone: what comes after each, as this page would give it. */
const nextWords = (verdict: Verdict): string =>
  JSON.stringify(Object.fromEntries(ALL.map((state) => [state, nextOf({ state }, verdict)])));

const nextTaps = (burn: BurnAnswer, verdict: Verdict, language: Language): Markup[] =>
  nextOf(burn, verdict).map((kind) => button(`${kind} ${burn.id}`, glanceWords(language).taps[kind]));

const otherTaps = (burn: BurnAnswer, verdict: Verdict, language: Language): Markup[] =>
  ALL.filter((kind) => kind !== burn.state && !nextOf(burn, verdict).includes(kind)).map(
    (kind) => html`<p>${button(`${kind} ${burn.id}`, glanceWords(language).taps[kind])}</p>`,
  );

/** Which of several pits the large buttons are for. */
function named({ live: { burn, timeZone, asOf }, others, ended, reader }: GlanceView): Markup | null {
  if (burn === null || others.length === 0) return null;
  return html`<p><b>${pitWords(burn, [burn, ...others, ...ended], timeZone, asOf, reader.language)}</b></p>`;
}

/** A pit that burns beside the one above. */
function ofOther({ live, others, ended, reader }: GlanceView, burn: BurnAnswer): Markup {
  const words = glanceWords(reader.language);
  const all = [...(live.burn === null ? [] : [live.burn]), ...others, ...ended];
  return html`<h3>${pitWords(burn, all, live.timeZone, live.asOf, reader.language)}</h3>${ALL.filter((kind) => kind !== burn.state).map((kind) => html`<p>${button(`${kind} ${burn.id}`, words.taps[kind])}</p>`)}`;
}

/** The last tap can be taken back, or given another time; earlier ones after it. */
function corrections({ live, covered, reader }: GlanceView): Markup | null {
  const words = glanceWords(reader.language);
  const burn = live.burn ?? covered;
  const last = burn?.taps.findLast(({ counts }) => counts);
  if (!burn || !last) return null;
  const label = words.taps[last.tap];
  const at = momentAt(last.tappedAt, live.timeZone, reader.language, live.asOf);
  return html`<p>${button(`undo ${burn.id} ${last.id}`, words.undo(label, at))}</p><p><label for="at">${words.moved(label)}</label> <span class="note" id="at-hint">${words.moveTime} (${clockAt(live.asOf, live.timeZone)})</span><input id="at" name="at" type="time" aria-describedby="at-hint"></p><p>${button(`move ${burn.id} ${last.id}`, words.moveButton)}</p>`;
}
