// What the page of a site is made from.

import type { ForecastState, HoursAnswer, PlanAnswer, WindowsAnswer } from '#publish/wire.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import type { Query } from './links.ts';

export interface SiteView {
  readonly forecast: ForecastState;
  readonly nowMs: number;
  /** What holds at `nowMs`. */
  readonly now: WindowsAnswer['windows'][number] | null;
  readonly plan: PlanAnswer;
  readonly windows: WindowsAnswer;
  readonly hours: HoursAnswer;
  /** The days from today on. */
  readonly week: readonly PlanAnswer[];
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly dayLabel: 'today' | 'tomorrow' | null;
  readonly query: Query;
}
