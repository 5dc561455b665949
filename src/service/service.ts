// The running service: source, keeper, desk and server put together, started and stopped in order.

import { setTimeout } from 'node:timers/promises';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import type { Config } from '#config/schema.ts';
import { createForecastKeeper, type ForecastKeeper } from '#jobs/keep-forecasts.ts';
import { buildServer } from '#publish/api/server.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import type { ForecastSource, SourceLog } from '#sources/source.ts';
import { createLatestForecasts } from '#store/latest.ts';
import { createPlanDesk } from './plan-desk.ts';

export interface ServiceOptions {
  readonly config: Config;
  readonly demo: boolean;
  readonly nowMs: () => number;
  readonly logger: FastifyBaseLogger | null;
  readonly version: string;
  /** Waits between tries; injected by tests. */
  readonly sleep?: Sleep;
  /** Said of a source that is our own, such as the demo's stand-in: it is asked as fast as it answers. */
  readonly ownSource: boolean;
}

export interface Service {
  readonly app: FastifyInstance;
  readonly desk: PlanDesk;
  readonly keeper: ForecastKeeper;
  /** Stops the clock, the server and the connections. */
  close(): Promise<void>;
}

export async function createService(options: ServiceOptions): Promise<Service> {
  const { config, demo, nowMs, logger, version } = options;
  const log: SourceLog = logger ?? SILENT;
  const source = liveSource({
    config,
    nowMs,
    log,
    ownSource: options.ownSource,
    sleep: options.sleep ?? sleepFor,
  });
  const latest = createLatestForecasts();
  const keeper = createForecastKeeper({
    sites: config.sites.map(({ id, at }) => ({ id, place: { latDeg: at[0], lonDeg: at[1] } })),
    source,
    latest,
    everyMin: config.sources.nws.everyMin,
    nowMs,
    log,
  });
  const desk = createPlanDesk({ config, latest, source, demo, nowMs });
  const app = await buildServer({ desk, logger, version });
  return {
    app,
    desk,
    keeper,
    async close() {
      await keeper.stop();
      // Together: an answer that waits for the source would else hold the server open.
      await Promise.all([app.close(), source.close()]);
    },
  };
}

const SILENT: SourceLog = { info: () => undefined, warn: () => undefined };

export type Sleep = (ms: number, signal: AbortSignal) => Promise<void>;

const sleepFor: Sleep = (ms, signal) => setTimeout(ms, undefined, { signal });

export interface LiveSourceOptions extends Pick<ServiceOptions, 'config' | 'nowMs' | 'ownSource'> {
  readonly log: SourceLog;
  readonly sleep: Sleep;
}

export function liveSource({ config, nowMs, log, sleep, ownSource }: LiveSourceOptions): ForecastSource {
  return createNwsSource({
    baseUrl: config.sources.nws.baseUrl,
    contact: config.contact,
    nowMs,
    sleep,
    random: Math.random,
    log,
    ...(ownSource ? { pace: null } : {}),
  });
}
