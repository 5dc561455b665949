// Pulls every site's forecast at start and then by the clock; a failed pull is kept as a fault, never as a forecast.

import { schedule } from 'node-cron';
import type { Place } from '#core/site/site.ts';
import { messageOf, ServiceError } from '#errors.ts';
import type { ForecastSource, SourceLog } from '#sources/source.ts';
import type { LatestForecasts } from '#store/latest.ts';

export interface KeptSite {
  readonly id: string;
  readonly place: Place;
}

export interface KeeperOptions {
  readonly sites: readonly KeptSite[];
  readonly source: ForecastSource;
  readonly latest: LatestForecasts;
  readonly everyMin: number;
  readonly nowMs: () => number;
  readonly log: SourceLog;
}

export interface ForecastKeeper {
  /** Pulls all sites once; never throws. */
  pullAll(): Promise<void>;
  /** Goes on by the clock until stopped. */
  start(): void;
  stop(): Promise<void>;
}

export function createForecastKeeper(options: KeeperOptions): ForecastKeeper {
  const abort = new AbortController();
  let running: Promise<void> | null = null;
  let stopTask: () => void | Promise<void> = () => undefined;
  const pullAll = (): Promise<void> => {
    // One round at a time: a slow source must not be asked twice for the same thing.
    running ??= pullInTurn(options, abort.signal).finally(() => {
      running = null;
    });
    return running;
  };
  return {
    pullAll,
    start() {
      const task = schedule(cronOf(options.everyMin), () => pullAll(), { noOverlap: true });
      stopTask = () => task.destroy();
    },
    async stop() {
      abort.abort();
      await stopTask();
      await running;
    },
  };
}

/** Every `min` minutes on the clock; from 60 on once an hour. */
const cronOf = (min: number): string => (min >= 60 ? '7 * * * *' : `*/${Math.round(min)} * * * *`);

/** A pull has a deadline: begun all at once, most would spend theirs waiting for the source's pace. */
const PULLS_AT_ONCE = 4;

async function pullInTurn(options: KeeperOptions, signal: AbortSignal): Promise<void> {
  const left = options.sites.values();
  const one = async () => {
    for (const site of left) {
      if (signal.aborted) return;
      await pullSite(options, site, signal);
    }
  };
  await Promise.all(Array.from({ length: PULLS_AT_ONCE }, one));
}

async function pullSite(options: KeeperOptions, site: KeptSite, signal: AbortSignal): Promise<void> {
  const { source, latest, nowMs, log } = options;
  try {
    const { point, forecast, alerts } = await source.pull(site.place, signal);
    latest.put(site.id, { forecast, alerts, pointTimeZone: point.timeZone }, nowMs());
    log.info({ site: site.id, cell: point.cell, documentId: forecast.documentId }, 'forecast pulled');
  } catch (fault) {
    const code = fault instanceof ServiceError ? fault.code : 'internal';
    latest.fail(site.id, { code, message: messageOf(fault), atMs: nowMs() });
    if (signal.aborted) return;
    await pullAlertsAlone(options, site, signal);
    log.warn({ site: site.id, code, message: messageOf(fault) }, 'forecast not pulled');
  }
}

/** A warning must be seen while the forecast itself cannot be had. A failure here changes nothing: alerts grow old and hold. */
async function pullAlertsAlone(options: KeeperOptions, site: KeptSite, signal: AbortSignal): Promise<void> {
  const { source, latest, log } = options;
  if (latest.get(site.id).held === null) return;
  try {
    latest.putAlerts(site.id, await source.alerts(site.place, signal));
  } catch (fault) {
    log.warn({ site: site.id, message: messageOf(fault) }, 'official alerts not read');
  }
}
