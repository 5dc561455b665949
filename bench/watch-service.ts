// A process that watches many burns at one place: answers, judges and sends by a clock that runs ahead or behind by so much.

import { readConfig } from '#config/load.ts';
import { createService } from '#service/service.ts';
import { openStore } from '#store/open-store.ts';
import { addressOf } from './each-store.ts';
import { watchedConfig } from './watched-sites.ts';

const [baseUrl = '', address = '', gatewayUrl = '', sites = '', ahead = ''] = process.argv.slice(2);
const nowMs = (): number => Date.now() + Number(ahead);
const { config, written } = readConfig(watchedConfig(Number(sites), baseUrl, gatewayUrl), 'watched.yaml');
const store = await openStore(addressOf(address), { nowMs });
const service = await createService({
  config,
  written,
  file: 'watched.yaml',
  store,
  databaseUrl: null,
  takesTurns: true,
  demo: false,
  ownSource: true,
  nowMs,
  logger: null,
  version: 'bench',
  // What a busy machine refuses is asked again by whoever posts; here everything is to be taken.
  server: { mostLoopDelayMs: Number.POSITIVE_INFINITY },
});
const url = await service.app.listen({ host: '127.0.0.1', port: 0 });
await service.keeper.pullAll();
service.start();
process.send?.(url);
process.on('SIGTERM', () => process.exit(0));
