// pitward plan: the three times of a day.

import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { theDay } from '#publish/api/site-answers.ts';
import type { Arguments } from './arguments.ts';
import { planText } from './print.ts';
import { dayOf, holdForecast, planOf, readerOf, readSettings, zoneOf } from './settings.ts';
import { EXIT, type Terminal } from './terminal.ts';

export async function plan(args: Arguments, terminal: Terminal): Promise<number> {
  const settings = await readSettings(args, terminal);
  const held = await holdForecast(args, settings, terminal);
  const timeZone = zoneOf(settings, held);
  const date = dayOf(args, settings, timeZone);
  const made = planOf(settings, held, date, 1);
  const answer = dayPlanAnswer(
    made,
    theDay(made),
    readerOf(args, settings.config, timeZone, date, settings.demo),
  );
  const colour = terminal.colour && !args.options['no-color'];
  terminal.out(args.options.json ? JSON.stringify(answer, null, 2) : planText(answer, { colour }));
  return EXIT.done;
}
