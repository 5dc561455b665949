// GET /metrics in the Prometheus text format. Each server has a registry of its own; nothing is kept in the module. The
// client for that format is loaded at the first scrape: a service that nobody scrapes starts sooner without it.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import type { GaugeReadings } from '#publish/gauges.ts';
import { seesWhole } from '#publish/viewer.ts';
import { type CountAnswer, countRequests } from './http-metrics.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import type { Scrapes } from './scrapes.ts';

export interface MetricsOptions {
  readonly gauges: (() => Promise<GaugeReadings>) | null;
  /** Whose service it is. */
  readonly organisation: string;
  readonly version: string;
}

export interface Metrics {
  readonly count: CountAnswer;
  addRoute(app: FastifyInstance): void;
}

/** To be called before the routes that it shall count. */
export function addMetrics(app: FastifyInstance, { gauges, organisation, version }: MetricsOptions): Metrics {
  const requests = countRequests(app);
  let scrapes: Promise<Scrapes> | null = null;
  const firstScrape = async (): Promise<Scrapes> => {
    const { createScrapes } = await import('./scrapes.ts');
    return createScrapes({ version, requests, gauges, loopDelayMs: () => app.memoryUsage().eventLoopDelay });
  };
  return {
    count: requests.count,
    addRoute(routes) {
      routes.get(
        '/metrics',
        {
          config: { scope: 'read' },
          schema: {
            summary: 'Figures about the service itself, in the Prometheus text format',
            tags: ['health'],
            querystring: noQuery,
            produces: [TEXT],
            response: { 200: z.string() },
            description: 'For keys of the organisation that runs the service, for all of its sites.',
          },
        },
        async (request, reply) => {
          if (!seesWhole(viewerOf(request), organisation)) throw notWhole();
          scrapes ??= firstScrape();
          const { contentType, read } = await scrapes;
          return reply
            .header('content-type', contentType)
            .header('cache-control', 'no-store')
            .send(await read());
        },
      );
    },
  };
}

const TEXT = 'text/plain';

const notWhole = (): ServiceError =>
  new ServiceError(
    'forbidden',
    'figures about the whole service are for keys of whoever runs it, for all sites',
  );
