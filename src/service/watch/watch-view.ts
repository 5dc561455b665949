// What one look at a site goes by, from what this process holds in memory.

import { dayTextTimes, watchSettings } from '#config/watch.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { Site } from '#core/site/site.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { addDays } from '#core/units/local-time.ts';
import type { Station } from '#core/watch/station.ts';
import type { SiteOutline, WatchDeps, WatchedSite } from '#jobs/watch/watched-site.ts';
import { builtSite } from '#memory/built-sites.ts';
import { organisationOf } from '#memory/definition-book.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { CalendarShelf } from '#service/calendar-shelf.ts';
import { createContactShelf } from './contact-shelf.ts';

export interface WatchViewOptions {
  readonly mirror: Mirror;
  readonly calendars: CalendarShelf;
  readonly nowMs: () => number;
  /** The stations of a site: those that are configured, and those that a source has found. */
  stationsOf(siteKey: string): readonly Station[];
  /** Those that are still to be found. */
  unfoundOf(siteKey: string): readonly Station[];
  /** Of which their source has said that there are none. */
  noneNearOf(siteKey: string): readonly Station[];
}

/** A fire that burns through midnight belongs to yesterday's plan; the evening text tells tomorrow's. */
const DAYS_BEFORE = 1;
const DAYS = 4;

export function createWatchView(
  options: WatchViewOptions,
): Pick<WatchDeps, 'view' | 'outline' | 'siteKeys' | 'contactsOf'> {
  const { mirror } = options;
  const contacts = createContactShelf(mirror);
  const planNow = createPlansNow(options);
  const placed = (key: string): { definition: SiteDefinition; site: Site } | null => {
    const definition = mirror.book().sites.get(key);
    const zone = definition?.fields.timeZone ?? mirror.state(key).held?.pointTimeZone ?? null;
    return definition && zone !== null ? { definition, site: builtSite(definition, zone).site } : null;
  };
  return {
    siteKeys: () => mirror.book().sites.keys(),
    contactsOf: contacts.all,
    outline(key): SiteOutline | null {
      const found = placed(key);
      if (found === null) return null;
      const { definition, site } = found;
      const hasCrew = contacts.of(key).some(({ role }) => role === 'crew');
      return { timeZone: site.timeZone, texts: dayTextTimes(definition.fields.texts), hasCrew };
    },
    view(key): WatchedSite | null {
      const found = placed(key);
      if (found === null) return null;
      const { definition } = found;
      let plan: Plan | null | undefined;
      const { held } = mirror.state(key);
      const zone = definition.fields.timeZone ?? held?.pointTimeZone ?? 'UTC';
      const { site, limits } = builtSite(definition, held?.pointTimeZone ?? zone);
      return {
        key,
        organisation: organisationOf(key),
        site,
        limits,
        settings: watchSettings(definition.fields.watch),
        texts: dayTextTimes(definition.fields.texts),
        stations: options.stationsOf(key),
        unfound: options.unfoundOf(key),
        noneNear: options.noneNearOf(key),
        contacts: contacts.of(key),
        // Made only where it is asked for: who is told asks nothing of it.
        get plan() {
          plan ??= planNow(key, definition);
          return plan;
        },
        alerts: held?.alerts ?? null,
      };
    },
  };
}

interface KeptPlan {
  readonly input: Parameters<typeof makePlan>[0];
  readonly plan: Plan;
}

/** As many as are looked at within a minute or shown on a page; the longest kept go first. */
const MOST_PLANS = 200;

/** Made once for a forecast and its alerts, and the same until an age or a standing changes, as the answers of the API are. */
function createPlansNow({ mirror, calendars, nowMs }: WatchViewOptions) {
  const plans = new Map<string, KeptPlan>();
  return (key: string, definition: SiteDefinition): Plan | null => {
    const { held } = mirror.state(key);
    if (held === null) return null;
    const { site, limits } = builtSite(definition, held.pointTimeZone);
    const at = nowMs();
    const firstDate = addDays(workingDayAt(site.shifts, at, site.timeZone).date, -DAYS_BEFORE);
    const calendar = calendars.get(site, firstDate, DAYS);
    const { forecast, alerts } = held;
    const input = { site, limits, forecast, alerts, nowMs: at, firstDate, dayCount: DAYS, calendar };
    const kept = plans.get(key);
    if (kept && isSame(kept, input)) return kept.plan;
    const plan = makePlan(input);
    plans.delete(key);
    plans.set(key, { input, plan });
    if (plans.size > MOST_PLANS) plans.delete(plans.keys().next().value ?? '');
    return plan;
  };
}

const isSame = ({ input: was, plan }: KeptPlan, is: KeptPlan['input']): boolean =>
  was.site === is.site &&
  was.limits === is.limits &&
  was.forecast === is.forecast &&
  was.alerts === is.alerts &&
  was.firstDate === is.firstDate &&
  was.calendar === is.calendar &&
  was.nowMs <= is.nowMs &&
  is.nowMs < plan.standsUntilMs;
