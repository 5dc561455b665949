// The list of sites as a table for other programs: codes and instants as the API has them, one row a site.

import { rfc3339 } from '#core/units/local-time.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { CrewTold } from '#publish/list-desk.ts';
import { firstReason } from '#publish/page/reasons.ts';
import type { ForecastState, PlanAnswer } from '#publish/wire.ts';
import type { Cell } from './csv.ts';
import type { ListFilter } from './filter.ts';
import type { Judged } from './needs.ts';
import type { SiteRow } from './site-row.ts';

/** Of the plan of a day; instants are RFC 3339 with the offset of the site. */
const PLAN_COLUMNS = [
  'date',
  'light_up',
  'light_up_by',
  'last_charge',
  'burned_down',
  'covered_by',
  'tightest_element',
  'tightest_at',
  'tightest_value',
  'tightest_bound',
  'tightest_room',
  'tightest_unit',
  'tightest_source',
  'reason',
] as const;

export const CSV_COLUMNS = [
  'site',
  'name',
  'latitude_deg',
  'longitude_deg',
  'time_zone',
  'verdict',
  ...PLAN_COLUMNS,
  'forecast_made_at',
  'forecast_age_min',
  'forecast_state',
  'burn_state',
  'burn_since',
  'needs',
  'changed_since_evening',
  'crew_told',
  'crew_told_at',
  'crew_count',
  'crew_seen_count',
  'crew_delivered_count',
] as const;

export interface PlanCells {
  readonly today: readonly Cell[];
  readonly tomorrow: readonly Cell[];
}

export const planCells = ({ today, tomorrow }: SiteRow): PlanCells => ({
  today: cellsOf(today),
  tomorrow: cellsOf(tomorrow),
});

function cellsOf(plan: PlanAnswer | null): Cell[] {
  if (plan === null) return PLAN_COLUMNS.map(() => null);
  const { tightest: t } = plan;
  const reason = plan.lightUp === null ? firstReason(plan) : (t?.text ?? null);
  return [
    plan.day,
    plan.lightUp,
    plan.lightUpBy,
    plan.lastCharge,
    plan.burnedDown,
    plan.coveredBy,
    ...(t === null
      ? [null, null, null, null, null, null, null]
      : [t.element, t.at, t.value, t.bound, t.room, t.unit, t.source]),
    reason,
  ];
}

export function csvRow(
  one: Judged,
  plan: PlanCells,
  told: CrewTold | null,
  forecast: ForecastState,
  day: ListFilter['day'],
): Cell[] {
  const { site, burn, needs, changes } = one;
  const mark = one.marks[day];
  return [
    ...placeOf(site),
    mark === 'unsaid' ? 'cannot-say' : mark,
    ...plan[day],
    forecast.madeAt,
    forecast.ageMin,
    forecast.state,
    burn?.state ?? null,
    burn && rfc3339(burn.sinceMs, site.timeZone ?? 'UTC'),
    needs.join(' '),
    changes.map((change) => (change.kind === 'time' ? change.time : change.kind)).join(' '),
    ...crewCells(told, site),
  ];
}

const placeOf = ({ id, name, at, timeZone }: DeskSite): Cell[] => [id, name, at[0], at[1], timeZone];

function crewCells(told: CrewTold | null, { timeZone }: DeskSite): Cell[] {
  if (told === null) return [null, null, null, null, null];
  const count = (...hows: readonly string[]): number =>
    told.crew.filter(({ how }) => hows.includes(how)).length;
  return [
    told.kind,
    rfc3339(told.atMs, timeZone ?? 'UTC'),
    told.crew.length,
    count('seen', 'cannot'),
    count('delivered'),
  ];
}
