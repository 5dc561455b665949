// GET /metrics in the Prometheus text format. Each server has a registry of its own; nothing is kept in the module.

import type { FastifyInstance } from 'fastify';
import { Gauge, Registry } from 'prom-client';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import type { GaugeReadings } from '#publish/gauges.ts';
import { seesWhole } from '#publish/viewer.ts';
import { type CountAnswer, countRequests } from './http-metrics.ts';
import { addProcessMetrics } from './process-metrics.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { createServiceMetrics } from './service-metrics.ts';

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
  const registry = new Registry();
  const name = 'pitward_build_info';
  new Gauge({
    name,
    help: 'always 1; the version is the label',
    labelNames: ['version'],
    registers: [registry],
  }).set({ version }, 1);
  const count = countRequests(app, registry);
  addProcessMetrics(registry, () => app.memoryUsage().eventLoopDelay);
  const show = gauges && createServiceMetrics(registry);
  return {
    count,
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
          if (gauges && show) show(await gauges());
          return reply
            .header('content-type', registry.contentType)
            .header('cache-control', 'no-store')
            .send(await registry.metrics());
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
