// A lane for each limit of the site, those first that end or begin the burn: its figures, the drawing, and in words how much
// room there is and where there is none.

import { isElement } from '#core/series/elements.ts';
import { type Frame, type LaneBound, type LaneHour, laneSvg } from '#publish/page/chart/lane.ts';
import { chartWords } from '#publish/wording/chart-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { figure } from './figure.ts';
import { html, type Markup } from './html.ts';
import type { LaneFacts, Limit, LimitHour } from './lane-facts.ts';
import { laneNotes } from './lane-notes.ts';

export function limitLane(facts: LaneFacts, frame: Frame, language: Language): Markup {
  const { limit, hours } = facts;
  const words = chartWords(language);
  const { elements } = wordsFor(language);
  const name = upperFirst(isElement(limit.element) ? elements[limit.element] : limit.element);
  const told = words.told(name, unitText(limit), hours.map((h) => toldHour(h, language)).join(', '));
  const drawn = {
    hours: hours.map((h) => drawnHour(h, facts, language)),
    bounds: boundsOf(limit, language),
    told,
    missingWord: words.missing,
  };
  const notes = laneNotes(facts, frame.loading !== null, language);
  return html`<h3 class="lh">${name} <span>${limitText(limit, language)}</span></h3>${laneSvg(drawn, frame)}<p class="note">${notes.join(' ')}</p>`;
}

const unitText = ({ unit }: Limit): string => (unit === '1' ? '' : unit);

/** "at most 20, stop 25 mph, our rule". */
export function limitText(limit: Limit, language: Language): string {
  const words = chartWords(language);
  const { atLeast, atMost, when, source } = limit;
  const text = (bound: number | null) => (bound === null ? null : figure(bound, null, language));
  const sides = (
    [
      ['atLeast', atLeast],
      ['atMost', atMost],
    ] as const
  ).flatMap(([side, bounds]) =>
    bounds === null ? [] : [words.bounds(side, text(bounds.hold), text(bounds.stop))],
  );
  const unit = unitText(limit);
  const figures = `${sides.join('; ')}${unit === '' ? '' : ` ${unit}`}`;
  return [figures, ...(when === 'always' ? [] : [words.when[when]]), source].join(', ');
}

function boundsOf({ atLeast, atMost }: Limit, language: Language): LaneBound[] {
  const words = chartWords(language);
  return (
    [
      ['atLeast', atLeast],
      ['atMost', atMost],
    ] as const
  ).flatMap(([side, bounds]) =>
    (['hold', 'stop'] as const).flatMap((verdict): LaneBound[] => {
      const value = bounds?.[verdict] ?? null;
      if (value === null) return [];
      return [{ value, side, verdict, label: `${words.bound[verdict]} ${figure(value, null, language)}` }];
    }),
  );
}

const textOf = ({ score, beyond }: LimitHour, language: Language): string =>
  score.value === null ? '' : figure(score.value, beyond === null ? null : score.bound, language);

function drawnHour(hour: LimitHour, { hours, least }: LaneFacts, language: Language): LaneHour {
  const { fromMs, score, beyond } = hour;
  return {
    fromMs,
    value: score.value,
    text: textOf(hour, language),
    beyond: beyond?.verdict ?? null,
    applies: score.applies,
    derived: score.derived,
    weight: weightOf(hour, hours, least),
  };
}

/** Where a run beyond a bound begins, then the least room, then every third hour, then the rest. */
function weightOf(hour: LimitHour, hours: readonly LimitHour[], least: LimitHour | null): number {
  const i = hours.indexOf(hour);
  const before = hours[i - 1]?.beyond ?? null;
  if (hour.beyond !== null && before?.verdict !== hour.beyond.verdict) return 4;
  if (hour === least) return 3;
  return i % 3 === 1 ? 2 : 1;
}

function toldHour(hour: LimitHour, language: Language): string {
  const words = chartWords(language);
  const { name, score, beyond } = hour;
  const value = score.value === null ? words.missing : textOf(hour, language);
  return words.toldHour(name, value, beyond === null ? null : words.beyondWords[beyond.side], score.derived);
}
