// The figures of the sheet by the hour: a row for each limit with whose it is, those first that decide the day.

import { isElement } from '#core/series/elements.ts';
import type { Span } from '#core/units/time.ts';
import { figure } from '#publish/page/figure.ts';
import { hourNames } from '#publish/page/hour-names.ts';
import { inOrder, type LimitHour, laneFacts } from '#publish/page/lane-facts.ts';
import { limitText } from '#publish/page/limit-lanes.ts';
import type { SiteView } from '#publish/page/site-view.ts';
import { chartWords } from '#publish/wording/chart-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';

export interface SheetCell {
  readonly text: string;
  /** Beyond which bound; null: within. */
  readonly beyond: 'hold' | 'stop' | null;
}

export interface SheetRow {
  readonly name: string;
  /** "at most 20, stop 25 mph, our rule". */
  readonly limit: string;
  readonly cells: readonly SheetCell[];
}

export interface SmokeHour {
  /** Degrees clockwise from north; null where nobody can say. */
  readonly towardDeg: number | null;
  readonly text: string;
}

export function sheetRows(view: SiteView, span: Span, shut: readonly Span[]): SheetRow[] {
  const { hours, plan, reader } = view;
  const { elements } = wordsFor(reader.language);
  const names = hourNames(hours, plan, reader.language);
  return inOrder(laneFacts(view, names, { span, shut }), plan).map(({ limit, hours: own }) => ({
    name: upperFirst(isElement(limit.element) ? elements[limit.element] : limit.element),
    limit: limitText(limit, reader.language),
    cells: own.map((hour) => cellOf(hour, reader.language)),
  }));
}

function cellOf({ score, beyond }: LimitHour, language: Language): SheetCell {
  if (score.value === null) return { text: chartWords(language).missing, beyond: null };
  return {
    text: figure(score.value, beyond === null ? null : score.bound, language),
    beyond: beyond?.verdict ?? null,
  };
}

/** Hours in a row with the same point of the compass. */
export function smokeRuns(
  smoke: readonly SmokeHour[],
  hours: readonly { readonly name: string }[],
): { readonly text: string; readonly from: string }[] {
  return smoke.flatMap(({ text }, i) =>
    text === smoke[i - 1]?.text ? [] : [{ text, from: hours[i]?.name ?? '' }],
  );
}
