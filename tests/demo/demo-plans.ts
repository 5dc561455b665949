// The plan of a site of the demonstration through the real pipeline, from the document's bytes on.

import { fileURLToPath } from 'node:url';
import { type BuiltSite, buildSite } from '#config/build-site.ts';
import { loadConfig } from '#config/load.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import type { DayPlan, Plan } from '#core/plan/plan.ts';
import { clockPartsAt, localDateAt } from '#core/units/local-time.ts';
import { DEMO_CELLS, type DemoCell } from '#demo/cells.ts';
import { gridpointDocument } from '#demo/documents.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';

export const DEMO_CONFIG = loadConfig(fileURLToPath(new URL('../../config/demo.yaml', import.meta.url)));

export function demoCell(siteId: string): DemoCell {
  const cell = DEMO_CELLS.find((c) => c.siteId === siteId);
  if (!cell) throw new Error(`no cell for ${siteId}`);
  return cell;
}

export function demoSite(siteId: string): BuiltSite {
  const fields = DEMO_CONFIG.sites.find((s) => s.id === siteId);
  const built = fields ? buildSite(DEMO_CONFIG, fields, 'America/Los_Angeles') : null;
  if (!built) throw new Error(`no site ${siteId}`);
  return built;
}

/** Today and seven days more, with alerts read and none found, so that the weather alone decides. */
export function demoPlan(siteId: string, nowMs: number, dayCount = 8): Plan {
  const cell = demoCell(siteId);
  const bytes = Buffer.from(JSON.stringify(gridpointDocument(cell, nowMs, 'http://127.0.0.1')));
  const { forecast, holdsPlace } = readGridpoint(bytes, { fetchedAtMs: nowMs, place: cell.place });
  if (holdsPlace !== true) throw new Error(`the cell does not hold ${siteId}`);
  const alerts = { fetchedAtMs: nowMs, complete: true, alerts: [] };
  const firstDate = localDateAt(nowMs, cell.timeZone);
  return makePlan({ ...demoSite(siteId), forecast, alerts, nowMs, firstDate, dayCount });
}

export function dayOf(plan: Plan, offset: number): DayPlan {
  const day = plan.days[offset];
  if (!day) throw new Error(`the plan has no day ${offset}`);
  return day;
}

/** `09:00` of an instant, on the site's clock. */
export function clock(ms: number, plan: Plan): string {
  const { hour, minute } = clockPartsAt(ms, plan.site.timeZone);
  return `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}
