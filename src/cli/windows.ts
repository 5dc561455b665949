// pitward windows: go, hold and stop through a day or a span.

import { isLocalDate, parseTypedInstantMs } from '#core/units/local-time.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import { askedSpan, type SpanQuery } from '#publish/api/query.ts';
import { type Arguments, usage } from './arguments.ts';
import { windowsText } from './print.ts';
import { dayOf, holdForecast, planOf, readerOf, readSettings, zoneOf } from './settings.ts';
import { EXIT, type Terminal } from './terminal.ts';

export async function windows(args: Arguments, terminal: Terminal): Promise<number> {
  const settings = await readSettings(args, terminal);
  const query = spanOf(args);
  const held = await holdForecast(args, settings, terminal);
  const timeZone = zoneOf(settings, held);
  const today = dayOf({ ...args, options: { ...args.options, day: 'today' } }, settings, timeZone);
  if (query.from === undefined) dayOf(args, settings, timeZone);
  const { span, firstDate, dayCount } = askedSpan(query, today, timeZone);
  const made = planOf(settings, held, firstDate, dayCount);
  const wanted = readerOf(args, settings.config, timeZone, dayCount === 1 ? firstDate : null, settings.demo);
  const answer = windowsAnswer(made, span, wanted);
  const colour = terminal.colour && !args.options['no-color'];
  terminal.out(args.options.json ? JSON.stringify(answer, null, 2) : windowsText(answer, { colour }));
  return EXIT.done;
}

function spanOf({ options }: Arguments): SpanQuery {
  const query: { day?: string; from?: string; to?: string } = {};
  for (const name of ['day', 'from', 'to'] as const) {
    const text = options[name];
    if (typeof text !== 'string') continue;
    if (name !== 'day' && !isLocalDate(text) && parseTypedInstantMs(text) === null) {
      throw usage(
        `--${name}: expected a date YYYY-MM-DD or an RFC 3339 instant with offset, found "${text}"`,
      );
    }
    query[name] = text;
  }
  return query;
}
