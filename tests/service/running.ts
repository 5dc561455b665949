// A service over the demo's stand-in, on the real client and a clock that the test sets.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readConfig } from '#config/load.ts';
import { type StandIn, startStandIn } from '#demo/stand-in.ts';
import { startTextGateway, type TextGateway } from '#demo/text-gateway.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService, type Service, type ServiceOptions } from '#service/service.ts';
import type { Store } from '#store/store.ts';

export const DEMO_YAML = readFileSync(
  fileURLToPath(new URL('../../config/demo.yaml', import.meta.url)),
  'utf8',
);

export interface Running {
  readonly service: Service;
  readonly clock: { nowMs: number };
  readonly standIn: StandIn;
  /** Takes the texts of the demo's contacts. */
  readonly phones: TextGateway;
  readonly store: Store;
  close(): Promise<void>;
}

export interface Others
  extends Partial<
    Pick<ServiceOptions, 'access' | 'server' | 'logger' | 'play' | 'secret' | 'steadyMs' | 'hookHttp'>
  > {
  /** Another store than one in memory; closed with the service. */
  readonly openStore?: (nowMs: () => number) => Promise<Store>;
  /** How the configuration writes the address of the stand-in. */
  readonly baseUrlOf?: (url: string) => string;
  /** Where it keeps what it knows; in memory where it is left out. */
  readonly openKept?: (nowMs: () => number) => ReturnType<typeof inMemory>;
}

/** Starts stand-in and service; pulls once unless told otherwise. */
export async function startRunning(
  nowText: string,
  change: (yaml: string) => string = (yaml) => yaml,
  pull = true,
  { baseUrlOf = (url) => url, openStore, openKept = inMemory, ...others }: Others = {},
): Promise<Running> {
  const clock = { nowMs: Date.parse(nowText) };
  const nowMs = () => clock.nowMs;
  const standIn = await startStandIn({ nowMs });
  const phones = await startTextGateway(nowMs);
  const yaml = DEMO_YAML.replace('http://127.0.0.1/texts', phones.url);
  const { config, written } = readConfig(change(yaml), 'demo.yaml');
  const sources = { nws: { ...config.sources.nws, baseUrl: baseUrlOf(standIn.baseUrl) } };
  const kept = openStore
    ? { store: await openStore(nowMs), databaseUrl: null, takesTurns: true }
    : await openKept(nowMs);
  const service = await createService({
    ...kept,
    config: { ...config, sources },
    written,
    file: 'demo.yaml',
    steadyMs: () => 0,
    demo: true,
    ownSource: true,
    nowMs,
    logger: null,
    sleep: () => Promise.resolve(),
    version: '0.0.0-test',
    ...others,
    // How busy the machine is that runs the tests is not what they are about.
    server: { mostLoopDelayMs: Number.POSITIVE_INFINITY, ...others.server },
  });
  if (pull) await service.keeper.pullAll();
  return {
    service,
    clock,
    standIn,
    phones,
    store: kept.store,
    async close() {
      await service.close();
      await kept.store.close();
      await standIn.close();
      await phones.close();
    },
  };
}
