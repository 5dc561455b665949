// The form for hand-held meters, on the page of a pit that burns. It works without script; what is wrong stands at its field.

import { type ReadingWhy, readingFormWords } from '#publish/wording/reading-form-words.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { type Query, readingLink } from './links.ts';

export interface ReadingFormView {
  readonly site: string;
  /** Those that are read by hand. */
  readonly meters: readonly {
    readonly id: string;
    readonly name: string;
    readonly reference: 'true' | 'magnetic' | 'relative';
    readonly takesMagnetic: boolean;
  }[];
  /** What was typed, by the names of the fields; nothing where the form is new. */
  readonly typed: Readonly<Record<string, string>>;
  readonly faults: readonly { readonly field: string; readonly why: ReadingWhy }[];
  /** The reading before was kept. */
  readonly kept: boolean;
}

interface Reader {
  readonly language: Language;
  readonly units: UnitSystem;
}

export function readingForm(view: ReadingFormView, reader: Reader, query: Query): Markup {
  const words = readingFormWords(reader.language);
  const { faults, kept, meters, site } = view;
  const title = html`<h3 id="reading">${words.title}</h3>`;
  const told = kept ? html`<p class="kept" role="status">${words.kept}</p>` : null;
  if (meters.length === 0) return html`${title}<p class="note">${words.noMeter}</p>`;
  const wrong =
    faults.length === 0
      ? null
      : html`<p class="bad" role="alert">${words.notKept}${partText(view, '(reading)', reader)}</p>`;
  return html`${title}${told}<form class="reading" method="post" action="${readingLink(site, query)}">${wrong}
${meterField(view, reader)}
${textField(view, reader, { name: 'time', label: words.time, hint: words.timeHint, kind: 'time' })}
<div class="three">${textField(view, reader, { name: 'windSpeed', label: words.wind, kind: 'number' })}${textField(view, reader, { name: 'windGust', label: words.gust, kind: 'number' })}${unitField(view, reader)}</div>
${directionField(view, reader)}
${textField(view, reader, { name: 'relativeHumidity', label: words.humidity, kind: 'number' })}
<p><button>${words.button}</button></p></form>`;
}

function faultText({ faults }: ReadingFormView, field: string, { language }: Reader): string | null {
  const why = faults.find((fault) => fault.field === field)?.why;
  if (why === undefined) return null;
  const words = readingFormWords(language);
  return why === 'unreadable' ? (words.unreadable[field] ?? words.unreadableElse) : words.faults[why];
}

const partText = (view: ReadingFormView, field: string, reader: Reader): string => {
  const text = faultText(view, field, reader);
  return text === null ? '' : ` ${text}`;
};

/** What is wrong with a field, and what else its input points at for whoever does not see the page. */
function faultAt(view: ReadingFormView, name: string, reader: Reader): Markup | null {
  const text = faultText(view, name, reader);
  return text === null ? null : html`<span class="bad" id="r-${name}-bad">${text}</span>`;
}

function pointers(view: ReadingFormView, name: string, reader: Reader, hint = false): Markup | null {
  const isBad = faultText(view, name, reader) !== null;
  const ids = [...(hint ? [`r-${name}-hint`] : []), ...(isBad ? [`r-${name}-bad`] : [])];
  if (ids.length === 0) return null;
  return html` aria-describedby="${ids.join(' ')}"${isBad ? html` aria-invalid="true"` : null}`;
}

interface TextField {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly kind: 'time' | 'number';
}

function textField(view: ReadingFormView, reader: Reader, { name, label, hint, kind }: TextField): Markup {
  const type = kind === 'time' ? html` type="time"` : html` inputmode="decimal"`;
  const note = hint === undefined ? null : html` <span class="note" id="r-${name}-hint">${hint}</span>`;
  return html`<p><label for="r-${name}">${label}</label>${note}<input id="r-${name}" name="${name}"${type} maxlength="40" autocomplete="off" value="${view.typed[name] ?? ''}"${pointers(view, name, reader, hint !== undefined)}>${faultAt(view, name, reader)}</p>`;
}

function option(value: string, text: string, chosen: string): Markup {
  return html`<option value="${value}"${value === chosen ? html` selected` : null}>${text}</option>`;
}

function meterField(view: ReadingFormView, reader: Reader): Markup {
  const { station } = readingFormWords(reader.language);
  const [first] = view.meters;
  const bad = faultAt(view, 'station', reader);
  if (view.meters.length === 1 && first && bad === null) {
    return html`<p>${station}: <b>${first.name}</b><input type="hidden" name="station" value="${first.id}"></p>`;
  }
  const options = view.meters.map(({ id, name }) => option(id, name, view.typed['station'] ?? ''));
  return html`<p><label for="r-station">${station}</label><select id="r-station" name="station"${pointers(view, 'station', reader)}>${options}</select>${bad}</p>`;
}

const UNITS = ['mph', 'kt', 'm/s', 'km/h'];

function unitField({ typed }: ReadingFormView, { language, units }: Reader): Markup {
  const chosen = typed['speedUnit'] ?? (units === 'us' ? 'mph' : 'm/s');
  return html`<p><label for="r-unit">${readingFormWords(language).unit}</label><select id="r-unit" name="speedUnit">${UNITS.map((unit) => option(unit, unit, chosen))}</select></p>`;
}

function directionField(view: ReadingFormView, reader: Reader): Markup {
  const words = readingFormWords(reader.language);
  const blows = view.typed['blows'] ?? 'from';
  const radio = (value: string, label: string): Markup =>
    html`<label class="pick"><input type="radio" name="blows" value="${value}"${value === blows ? html` checked` : null}> ${label}</label>`;
  const bad = faultAt(view, 'windDirection', reader);
  return html`<fieldset><legend>${words.from}</legend>${radio('from', words.blowsFrom)}<p><label class="skip" for="r-windDirection">${words.from}</label><input id="r-windDirection" name="windDirection" maxlength="40" autocomplete="off" autocapitalize="characters" value="${view.typed['windDirection'] ?? ''}"${pointers(view, 'windDirection', reader, true)}> <span class="note" id="r-windDirection-hint">${words.fromHint}</span>${bad}</p>
${radio('calm', words.calm)}${radio('variable', words.variable)}${referenceField(view, reader)}</fieldset>`;
}

/** Magnetic only where some meter can be read so. */
function referenceField(view: ReadingFormView, reader: Reader): Markup {
  const { meters, typed } = view;
  const words = readingFormWords(reader.language);
  const own = new Set(meters.map(({ reference }) => reference));
  const [only = 'true'] = own;
  const isMixed = own.size > 1 || only === 'relative';
  const chosen = typed['reference'] ?? (isMixed ? '' : only);
  const options = [
    ...(isMixed ? [option('', words.asConfigured, chosen)] : []),
    option('true', words.trueNorth, chosen),
    ...(meters.some(({ takesMagnetic }) => takesMagnetic)
      ? [option('magnetic', words.magnetic, chosen)]
      : []),
  ];
  return html`<p><label for="r-reference">${words.reference}</label><select id="r-reference" name="reference"${pointers(view, 'reference', reader)}>${options}</select>${faultAt(view, 'reference', reader)}</p>`;
}
