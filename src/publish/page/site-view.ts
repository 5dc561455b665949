// What the page of a site is made from.

import type { Silence } from '#core/notices/silence.ts';
import type { ForecastState, HoursAnswer, PlanAnswer, WindowsAnswer } from '#publish/wire.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import type { DayTextView } from './day-text.ts';
import type { Query } from './links.ts';
import type { Phone } from './phone-marks.ts';
import type { ReadingFormView } from './reading-form.ts';

export interface SiteView {
  readonly forecast: ForecastState;
  readonly nowMs: number;
  /** What holds at `nowMs`. */
  readonly now: WindowsAnswer['windows'][number] | null;
  /** What stands at the pit at `nowMs`, whether or not it burns; null where nothing is watched. */
  readonly live: NowAnswer | null;
  /** In force at `nowMs`. */
  readonly silences: readonly Silence[];
  /** Null where no burn is open, or whoever reads may not enter readings. */
  readonly reading: ReadingFormView | null;
  /** The demonstration's simulated shift can be played. */
  readonly canPlay: boolean;
  /** The day can be shown as it was known at any of its times. */
  readonly hasHistory?: boolean;
  /** There is a sheet of it to print. */
  readonly hasSheet?: boolean;
  readonly plan: PlanAnswer;
  readonly windows: WindowsAnswer;
  readonly hours: HoursAnswer;
  /** The days from today on. */
  readonly week: readonly PlanAnswer[];
  /** What smoke must not reach, by the bearings seen from the pit. */
  readonly keepOff: readonly { readonly name: string; readonly fromDeg: number; readonly toDeg: number }[];
  /** The text about the day to the crew; null where none is sent. */
  readonly text: DayTextView | null;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly dayLabel: 'today' | 'tomorrow' | null;
  readonly query: Query;
  /** Whose page it is, and its scripts; left out: it has none. */
  readonly phone?: Pick<Phone, 'reader' | 'scripts'>;
}

/** The window of this moment for the plan of today; undefined for another day, which it says nothing about. */
export function nowFor(
  { plan, now, week, dayLabel }: SiteView,
  day: PlanAnswer,
): SiteView['now'] | undefined {
  const today = dayLabel === 'today' ? plan.day : week[0]?.day;
  return day.day === today ? now : undefined;
}
