// The real service over a store in memory, the demo's stand-ins and a clock that is set by hand.

import type { ReadConfig } from '#config/load.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { startTextGateway, type TextGateway } from '#demo/text-gateway.ts';
import { ServiceError } from '#errors.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService, type Service } from '#service/service.ts';
import { playedConfig } from './played-config.ts';

export interface PlayedService {
  readonly clock: { nowMs: number };
  readonly service: Service;
  readonly phones: TextGateway;
  readonly contacts: ReadConfig['config']['contacts'];
  /** Asks the API; throws where it does not answer as hoped. */
  ask(method: 'GET' | 'POST', url: string, body?: object): Promise<Record<string, unknown>>;
  close(): Promise<void>;
}

export async function openPlayedService(
  written: ReadConfig['written'],
  siteId: string,
  startMs: number,
  version: string,
): Promise<PlayedService> {
  const clock = { nowMs: startMs };
  const nowMs = (): number => clock.nowMs;
  const standIn = await startStandIn({ nowMs });
  const phones = await startTextGateway(nowMs);
  const read = playedConfig(written, siteId, { forecastUrl: standIn.baseUrl, textsUrl: phones.url });
  const kept = await inMemory(nowMs);
  const service = await createService({
    ...kept,
    ...read,
    file: 'demo.yaml',
    demo: true,
    ownSource: true,
    nowMs,
    steadyMs: () => 0,
    sleep: () => Promise.resolve(),
    logger: null,
    version,
    // It listens nowhere: nobody else waits for it.
    server: { mostLoopDelayMs: Number.POSITIVE_INFINITY },
  });
  return {
    clock,
    service,
    phones,
    contacts: read.config.contacts,
    async ask(method, url, body) {
      const reply = await service.app.inject({ method, url, ...(body ? { payload: body } : {}) });
      if (reply.statusCode < 300) return reply.json();
      throw new ServiceError(
        'internal',
        `${method} ${url} was answered with ${reply.statusCode}: ${reply.body}`,
      );
    },
    async close() {
      await service.close();
      await kept.store.close();
      await standIn.close();
      await phones.close();
    },
  };
}
