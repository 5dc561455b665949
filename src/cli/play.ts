// pitward play: a simulated shift of the demonstration, as its page shows it.

import { readConfigFile } from '#config/load.ts';
import { localDateAt } from '#core/units/local-time.ts';
import { playDay } from '#play/play-day.ts';
import { type PlayedRow, playedRows } from '#publish/page/played-rows.ts';
import { MOST_SEED } from '#publish/play-desk.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { clockText, dateText } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import type { Words } from '#publish/wording/words.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { type Look, verdictText } from './print.ts';
import { readerOf } from './settings.ts';
import { EXIT, type Terminal } from './terminal.ts';
import { VERSION } from './version.ts';

const FIRST_SEED = '1';
/** Times and marks stand in columns of their own. */
const TIME_WIDTH = 20;
const INDENT = '      ';

export async function play(args: Arguments, terminal: Terminal): Promise<number> {
  const { words: given, options } = args;
  if (given.length > 0) throw usage('play takes no site; it plays a shift at a site of the demo');
  const seed = seedOf(options.seed ?? FIRST_SEED);
  const { config, written } = readConfigFile(configFileOf({ ...args, options: { demo: true } }, terminal));
  const { reader } = readerOf(args, config, 'UTC', null, true);
  const { language } = reader;
  const day = await playDay({ seed, written, version: VERSION });
  if (options.json) {
    terminal.out(JSON.stringify({ demo: true, ...day }, null, 2));
    return EXIT.done;
  }
  const { timeZone } = day;
  const date = localDateAt(day.lightUpMs, timeZone);
  const words = wordsFor(language);
  const { labels } = words;
  const clock = (ms: number): string => clockText(ms, timeZone);
  const look = { colour: terminal.colour && !options['no-color'] };
  terminal.out(
    [
      words.demo,
      `${day.site}, ${dateText(date, language)} (${timeZone}), --seed ${seed}`,
      `${labels.lightUp} ${clock(day.lightUpMs)}, ${lowerFirst(labels.lastCharge)} ${clock(day.lastChargeMs)}, ${lowerFirst(labels.coveredBy)} ${clock(day.coveredByMs)}`,
      '',
      ...playedRows(day, { ...reader, timeZone, day: date }).flatMap((row) => linesOf(row, words, look)),
      '',
      words.caution,
    ].join('\n'),
  );
  return EXIT.done;
}

function linesOf({ time, mark, text, quoted }: PlayedRow, words: Words, look: Look): string[] {
  const word = mark === 'unsaid' ? `<> ${words.cannotSay}` : mark && verdictText(mark, words, look);
  const marked = word === null ? '' : `${word}  `;
  const line = `${time.padEnd(TIME_WIDTH)} ${marked}${text}`;
  return quoted === null ? [line] : [line, `${INDENT}${quoted.text}`];
}

function seedOf(told: string | boolean): number {
  const seed = /^\d{1,4}$/.test(String(told)) ? Number(told) : 0;
  if (seed >= 1 && seed <= MOST_SEED) return seed;
  throw usage(`--seed: expected a whole number from 1 to ${MOST_SEED}, found "${told}"`);
}
