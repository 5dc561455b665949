// A simulated shift as rows that a person reads: readings that say the same stand together, everything else by itself.

import { wrapDeg } from '#core/units/direction.ts';
import { playWords } from '#publish/wording/play-words.ts';
import { readingWords } from '#publish/wording/reading-words.ts';
import { amountText, bearingText, clockText } from '#publish/wording/show.ts';
import type { Reader } from '#publish/wording/words.ts';
import type { PlayedDay, PlayedEntry } from './played-day.ts';
import type { Mark } from './standing.ts';

export interface PlayedRow {
  readonly kind: PlayedEntry['kind'];
  /** "9:25 am", or "9:25 am – 10:25 am". */
  readonly time: string;
  /** Null on rows that judge nothing. */
  readonly mark: Mark | null;
  readonly text: string;
  /** A text as it arrived, in the language of whoever got it. */
  readonly quoted: { readonly text: string; readonly language: string } | null;
}

type Reading = Extract<PlayedEntry, { kind: 'reading' }>;

export function playedRows({ entries }: Pick<PlayedDay, 'entries'>, reader: Reader): PlayedRow[] {
  const rows: PlayedRow[] = [];
  let same: Reading[] = [];
  const flush = (): void => {
    if (same.length > 0) rows.push(readingsRow(same, reader));
    same = [];
  };
  for (const entry of entries) {
    if (entry.kind === 'reading') {
      const [first] = same;
      if (first && (first.verdict !== entry.verdict || first.unknown !== entry.unknown)) flush();
      same.push(entry);
    } else {
      flush();
      rows.push(otherRow(entry, reader));
    }
  }
  flush();
  return rows;
}

function readingsRow(same: readonly Reading[], reader: Reader): PlayedRow {
  const words = playWords(reader.language);
  const told = readingWords(reader.language);
  const [first, last] = [same[0] as Reading, same.at(-1) as Reading];
  const clock = (ms: number): string => clockText(ms, reader.timeZone);
  const range = (pick: (reading: Reading) => number, show: (value: number) => string): string => {
    const values = same.map(pick);
    const [low, high] = [show(Math.min(...values)), show(Math.max(...values))];
    return low === high ? low : `${low} ${told.to} ${high}`;
  };
  const speed = (mps: number): string => amountText('windSpeed', mps, reader.units, reader.language);
  // Counted from the first, so that winds on both sides of north have a smallest and a largest.
  const fromFirst = (r: Reading): number => wrapDeg(r.windFromDeg - first.windFromDeg + 180) - 180;
  const from = range(fromFirst, (deg) => bearingText(wrapDeg(first.windFromDeg + deg), reader.language));
  const humidity = range(
    (r) => r.humidityPct,
    (pct) => amountText('relativeHumidity', pct, reader.units, reader.language),
  );
  const facts = [
    told.wind(
      range((r) => r.windSpeedMps, speed),
      from,
    ),
    told.gust(range((r) => r.gustMps, speed)),
    told.humidity(humidity),
  ];
  return {
    kind: 'reading',
    time: same.length === 1 ? clock(first.atMs) : `${clock(first.atMs)} – ${clock(last.atMs)}`,
    mark: first.unknown ? 'unsaid' : first.verdict,
    text: `${same.length === 1 ? words.measured : words.readings(same.length)}: ${facts.join(', ')}`,
    quoted: null,
  };
}

function otherRow(entry: Exclude<PlayedEntry, Reading>, { language, timeZone }: Reader): PlayedRow {
  const words = playWords(language);
  const row = { kind: entry.kind, time: clockText(entry.atMs, timeZone), mark: null, quoted: null };
  switch (entry.kind) {
    case 'turn':
      return { ...row, text: words.windTurns };
    case 'tap':
      return { ...row, text: `${entry.by.name} ${words.taps[entry.tap]}` };
    case 'answer':
      return {
        ...row,
        text: `${entry.by.name} (${words.roles[entry.by.role]}) ${words.says}: ${entry.said}`,
      };
    case 'text':
      return {
        ...row,
        text: `${words.textTo} ${entry.to.name} (${words.roles[entry.to.role]})`,
        quoted: { text: entry.text, language: entry.to.language },
      };
  }
}
