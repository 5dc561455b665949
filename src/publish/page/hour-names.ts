// Names of the hours of a day, as band, lanes and table call them.

import type { HoursAnswer, PlanAnswer } from '#publish/wire.ts';
import type { Language } from '#publish/wording/show.ts';
import { msOf, zoneShort } from './moments.ts';
import { timeOf } from './plan-text.ts';

/** Clock times, after the day's midnight with the date; where an autumn day has one twice, both say which. */
export function hourNames({ hours, timeZone }: HoursAnswer, plan: PlanAnswer, language: Language): string[] {
  const clocks = hours.map((h) => timeOf(h.from, plan, language));
  return hours.map((h, i) => {
    const clock = clocks[i] ?? '';
    const isTwice = clocks.indexOf(clock) !== clocks.lastIndexOf(clock);
    return isTwice ? `${clock} ${zoneShort(timeZone, language, msOf(h.from))}` : clock;
  });
}
