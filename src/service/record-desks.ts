// Desks over what is kept: what happened and who is sent it, what was known, what is written.

import type { Config } from '#config/schema.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { createHooking, type HookingOptions } from '#service/hooks/hooking.ts';
import type { Watching } from '#service/watch/watching.ts';
import type { NwsSource } from '#sources/nws/client.ts';
import type { Premises } from './definition-check.ts';
import { createDefinitionDesk } from './definition-desk.ts';
import { createEventDesk } from './event-desk.ts';
import { createHistoryDesk } from './history-desk.ts';
import type { ServiceOptions } from './service.ts';
import { createSettingsDesk } from './settings-desk.ts';

interface Parts extends Pick<HookingOptions, 'worker' | 'log' | 'nowMs'> {
  readonly mirror: Mirror;
  readonly source: Pick<NwsSource, 'grid'>;
  readonly desk: PlanDesk;
  readonly watching: Pick<Watching, 'say'>;
  applied(): Promise<void>;
}

export async function recordDesks(options: ServiceOptions, parts: Parts) {
  const { config, store, version, takesTurns, steadyMs, hookHttp } = options;
  const { mirror, nowMs, applied } = parts;
  const events = createEventDesk(store.events, (key) => mirror.book().sites.get(key)?.fields.at ?? null);
  const hooks = await createHooking({
    ...{ config, store, takesTurns, nowMs, events },
    ...{ desk: parts.desk, worker: parts.worker, log: parts.log },
    steadyMs: steadyMs ?? (() => performance.now()),
    say: parts.watching.say,
    keys: mirror.keys,
    publicUrl: config.listen.publicUrl ?? null,
    ...(hookHttp ? { http: hookHttp } : {}),
  });
  const source = parts.source.grid;
  const desks = {
    events,
    subscriptions: hooks.desk,
    history: createHistoryDesk({ store, mirror, source, config, program: version }),
    definitions: createDefinitionDesk({ premises: premisesOf(config), store, nowMs, applied }),
    settings: createSettingsDesk({ definitions: store.definitions, mirror, nowMs }),
  };
  return { desks, hooks };
}

const premisesOf = ({ channels, mqtt, stationHosts }: Config): Premises => ({
  channels,
  brokers: mqtt.map(({ id }) => id),
  stationHosts,
});
