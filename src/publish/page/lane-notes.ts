// What a lane says in words: the least room with its hour, the hours beyond a bound, and what is missing.

import { MISSING_REASONS, type MissingReason } from '#core/series/hourly-series.ts';
import { runs } from '#publish/page/chart/runs.ts';
import { type Between, chartWords } from '#publish/wording/chart-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { gapText, type Language } from '#publish/wording/show.ts';
import type { LaneFacts, LimitHour } from './lane-facts.ts';

/** More sentences than this are left to the table. */
const MOST_TOLD = 4;

export function laneNotes(
  { limit, hours, least }: LaneFacts,
  isLoading: boolean,
  language: Language,
): string[] {
  const words = chartWords(language);
  const beyond = grouped(hours, keyOfBeyond).map(({ first, spans }) => {
    const { side, verdict } = first.beyond ?? { side: 'atMost', verdict: 'hold' };
    return words.beyond(side, verdict, spans);
  });
  const missing = grouped(hours, keyOfMissing).map(({ key, spans }) =>
    words.missingFrom(spans, wordsFor(language).whyMissing[isReason(key) ? key : 'none']),
  );
  const told = [...beyond, ...missing];
  const cut = told.length > MOST_TOLD ? [...told.slice(0, MOST_TOLD), words.moreBelow] : told;
  const isDerived = hours.some(({ score }) => score.derived);
  return [
    ...roomText(least, limit.unit, isLoading, language),
    ...cut,
    ...(isDerived ? [words.derivedMark] : []),
  ];
}

interface Group {
  readonly key: string;
  readonly first: LimitHour;
  readonly spans: Between[];
}

/** Runs of hours of the same kind, all that say the same together. */
function grouped(hours: readonly LimitHour[], keyOf: (hour: LimitHour) => string | null): Group[] {
  const groups = new Map<string, Group>();
  for (const { key, items } of runs(hours, keyOf)) {
    const [first] = items;
    if (first === undefined) continue;
    const group = groups.get(key) ?? { key, first, spans: [] };
    group.spans.push(edgesOf(items, hours));
    groups.set(key, group);
  }
  return [...groups.values()];
}

const keyOfBeyond = ({ beyond }: LimitHour): string | null =>
  beyond === null ? null : `${beyond.side} ${beyond.verdict}`;

const keyOfMissing = ({ score }: LimitHour): string | null =>
  score.value === null ? (score.missing ?? 'none') : null;

function roomText(least: LimitHour | null, unit: string, isLoading: boolean, language: Language): string[] {
  if (least === null || least.score.room === null) return [];
  const words = chartWords(language);
  const room = gapText(least.score.room, unit, language);
  return [least.beyond === null ? words.room(room, least.name, isLoading) : words.beyondBy(room, least.name)];
}

/** Begin and end of a run as the hours are called. */
function edgesOf(run: readonly LimitHour[], all: readonly LimitHour[]): Between {
  const [first] = run;
  const from = first === all[0] ? null : (first?.name ?? null);
  const next = first && all[all.indexOf(first) + run.length];
  return { from, until: next?.name ?? null };
}

const isReason = (text: string): text is MissingReason =>
  (MISSING_REASONS as readonly string[]).includes(text);
