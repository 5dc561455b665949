// What each scrape of /metrics gets: the counts of requests, the figures of the process and those of the service.

import { Gauge, Registry } from 'prom-client';
import type { GaugeReadings } from '#publish/gauges.ts';
import type { RequestCounts } from './http-metrics.ts';
import { addProcessMetrics } from './process-metrics.ts';
import { createServiceMetrics } from './service-metrics.ts';

export interface ScrapeOptions {
  readonly version: string;
  readonly requests: Pick<RequestCounts, 'showIn'>;
  readonly gauges: (() => Promise<GaugeReadings>) | null;
  loopDelayMs(): number;
}

export interface Scrapes {
  readonly contentType: string;
  /** The text of one scrape. */
  read(): Promise<string>;
}

export function createScrapes({ version, requests, gauges, loopDelayMs }: ScrapeOptions): Scrapes {
  const registry = new Registry();
  const name = 'pitward_build_info';
  new Gauge({
    name,
    help: 'always 1; the version is the label',
    labelNames: ['version'],
    registers: [registry],
  }).set({ version }, 1);
  requests.showIn(registry);
  addProcessMetrics(registry, loopDelayMs);
  const show = gauges && createServiceMetrics(registry);
  return {
    contentType: registry.contentType,
    async read() {
      if (gauges && show) show(await gauges());
      return await registry.metrics();
    },
  };
}
