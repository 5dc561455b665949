// What some days leave behind, minute by minute on a clock of their own: the real service over the demonstration's source,
// whose forecasts are new every hour. So many plans, events and lists of alerts are usual, and so large.

import { fileURLToPath } from 'node:url';
import { readConfigFile } from '#config/load.ts';
import type { LoggedEvent } from '#core/events/event.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService } from '#service/service.ts';
import type { PlanRecord } from '#store/plan-record.ts';
import { note } from './measure.ts';

export interface UsualDays {
  readonly fromMs: number;
  readonly days: number;
  readonly siteCount: number;
  readonly plans: readonly PlanRecord[];
  readonly events: readonly LoggedEvent[];
  /** Rows of all tables in the end. */
  readonly rows: Readonly<Record<string, number>>;
}

const MINUTES_A_DAY = 1440;

/** The first day is left out: it begins with nothing. */
export async function usualDays(days: number): Promise<UsualDays> {
  const startMs = Date.parse('2026-03-02T08:00:00Z');
  let nowMs = startMs;
  const clock = () => nowMs;
  const standIn = await startStandIn({ nowMs: clock });
  const { config, written } = readConfigFile(fileURLToPath(new URL('../config/demo.yaml', import.meta.url)));
  const kept = await inMemory(clock);
  const service = await createService({
    ...kept,
    config: { ...config, sources: { nws: { ...config.sources.nws, baseUrl: standIn.baseUrl } } },
    written,
    file: 'demo.yaml',
    demo: true,
    ownSource: true,
    nowMs: clock,
    steadyMs: () => 0,
    logger: null,
    sleep: () => Promise.resolve(),
    version: 'bench',
  });
  await service.keeper.pullAll();
  for (let minute = 0; minute < (days + 1) * MINUTES_A_DAY; minute += 1) {
    nowMs = startMs + minute * MINUTE_MS;
    if (minute % 480 === 0) note(`usual days: ${minute / 60} of ${(days + 1) * 24} hours`);
    await service.keeper.minute();
    await service.keeper.idle();
  }
  const fromMs = startMs + MINUTES_A_DAY * MINUTE_MS;
  const sites = service.mirror.book().sites;
  const lists = await Promise.all(
    [...sites.keys()].map((key) => kept.store.plans.within(key, fromMs, nowMs + 1, 100_000)),
  );
  const events = (await kept.store.events.after({ after: 0, most: 1_000_000 })).filter(
    ({ atMs }) => atMs >= fromMs,
  );
  const { rows } = await kept.store.care.sizes();
  await service.close();
  await kept.store.close();
  await standIn.close();
  return { fromMs, days, siteCount: sites.size, plans: lists.flat(), events, rows };
}
