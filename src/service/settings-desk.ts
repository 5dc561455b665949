// What the coming week becomes by a change that is not made yet: the definitions as they would stand, read as they are always
// read, and planned from the forecasts in memory.

import type { Plan } from '#core/plan/plan.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { type DefinitionBook, readBook } from '#memory/definition-book.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { HeldForecast } from '#memory/site-state.ts';
import type { Proposed, ProposedWeek, SettingsDesk } from '#publish/settings-desk.ts';
import { maySee } from '#publish/viewer.ts';
import type { Definition } from '#store/definition.ts';
import type { DefinitionRecords } from '#store/store.ts';
import { planHeld } from './plan-held.ts';
import { KEPT_DAYS } from './planner.ts';

export interface SettingsDeskOptions {
  readonly definitions: Pick<DefinitionRecords, 'current'>;
  readonly mirror: Pick<Mirror, 'book' | 'state'>;
  nowMs(): number;
}

export function createSettingsDesk({ definitions, mirror, nowMs }: SettingsDeskOptions): SettingsDesk {
  return {
    async weeks(proposed, most) {
      const { organisation, sites } = proposed;
      const rows = (await definitions.current()).filter((row) => row.organisation === organisation);
      const before = readBook(rows, mirror.book());
      const after = readBook(withProposed(rows, proposed), before);
      const concerned = changedSites(before, after).filter((key) =>
        maySee({ sites }, key.slice(organisation.length + 1)),
      );
      const weeks = concerned.slice(0, most).map((key) => {
        const { held } = mirror.state(key);
        return weekOf(key, before.sites.get(key), after.sites.get(key), held, nowMs());
      });
      return { sites: weeks, more: concerned.length - weeks.length };
    },
  };
}

function withProposed(rows: readonly Definition[], { organisation, kind, id, body }: Proposed): Definition[] {
  const others = rows.filter((row) => !(row.kind === kind && row.id === id));
  const of = { organisation, kind, id, body, revision: 0, origin: 'api' as const };
  return [...others, { ...of, changedAtMs: 0, changedBy: '' }];
}

/** A definition that stays the same is the very same object. */
const changedSites = (before: DefinitionBook, after: DefinitionBook): string[] =>
  [...new Set([...before.sites.keys(), ...after.sites.keys()])].filter(
    (key) => before.sites.get(key) !== after.sites.get(key),
  );

function weekOf(
  key: string,
  was: SiteDefinition | undefined,
  is: SiteDefinition | undefined,
  held: HeldForecast | null,
  nowMs: number,
): ProposedWeek {
  const { id, name } = (is ?? was)?.fields ?? { id: key, name: key };
  // The forecast of one place says nothing of another.
  const isMoved = was !== undefined && is !== undefined && was.placeKey !== is.placeKey;
  const planOf = (definition: SiteDefinition | undefined): Plan | null =>
    held === null || definition === undefined ? null : weekFrom(definition, held, nowMs);
  return {
    ...{ key, id, name },
    before: planOf(was),
    after: isMoved ? null : planOf(is),
    why: whyNot(was, is, isMoved, held),
  };
}

function whyNot(
  was: SiteDefinition | undefined,
  is: SiteDefinition | undefined,
  isMoved: boolean,
  held: HeldForecast | null,
): ProposedWeek['why'] {
  if (is === undefined) return 'siteGone';
  if (was === undefined) return held === null ? 'newPlace' : 'siteNew';
  if (isMoved) return 'newPlace';
  return held === null ? 'noForecast' : null;
}

function weekFrom(definition: SiteDefinition, held: HeldForecast, nowMs: number): Plan {
  const { fields } = definition;
  const { date } = workingDayAt(fields.shift, nowMs, fields.timeZone ?? held.pointTimeZone);
  return planHeld(definition, held, nowMs, date, KEPT_DAYS);
}
