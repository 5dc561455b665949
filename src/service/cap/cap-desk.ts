// Messages of the Common Alerting Protocol of a running service: published by the clock and before anybody reads.

import type { Config } from '#config/schema.ts';
import { CAP_SEVERITIES } from '#core/cap/notice-says.ts';
import type { Site } from '#core/site/site.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { messageOf as faultText, ServiceError } from '#errors.ts';
import { inTurn } from '#memory/in-turn.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import type { CapDesk } from '#publish/cap-desk.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { SmokeDesk } from '#publish/smoke-desk.ts';
import { maySee } from '#publish/viewer.ts';
import type { SourceLog } from '#sources/source.ts';
import type { Store } from '#store/store.ts';
import { createCapPublisher } from './publish-cap.ts';

/** Messages stay in the index for so long after they expired. */
const LISTED_FOR_MS = 48 * HOUR_MS;
/** Beside what stands. */
const MOST_ENTRIES = 500;

export interface CapOptions {
  readonly config: Config;
  readonly store: Store;
  readonly mirror: Mirror;
  readonly desk: PlanDesk;
  readonly smoke: Pick<SmokeDesk, 'smokes'>;
  readonly watching: { readonly say: SayCondition; site(siteKey: string): Site | null };
  readonly demo: boolean;
  readonly nowMs: () => number;
  readonly log: SourceLog;
}

export interface Cap {
  readonly desk: CapDesk;
  /** Publishes what is to be told of every organisation, now. */
  publish(): Promise<void>;
}

export function createCap(options: CapOptions): Cap {
  const { config, store, mirror, nowMs, log, demo } = options;
  const { sender, scope, restriction, addresses, severity, burns } = config.cap;
  const publish = createCapPublisher({
    ...options,
    say: options.watching.say,
    siteOf: options.watching.site,
    units: config.preferences.units,
    severities: { ...CAP_SEVERITIES, ...severity },
    burns,
    from: (organisation) => ({
      ...{ scope, restriction, addresses, sender: sender ?? `pitward-${organisation}` },
      status: demo ? 'Exercise' : 'Actual',
    }),
    sitesOf: (organisation) =>
      [...mirror.book().sites.keys()].filter((key) => key.startsWith(`${organisation}/`)),
  });
  const organisations = (): string[] => [
    ...new Set([...mirror.book().sites.keys()].map((key) => key.slice(0, key.indexOf('/')))),
  ];
  return {
    publish: inTurn(async () => {
      for (const organisation of organisations())
        await publish(organisation).catch((fault: unknown) => {
          log.warn({ message: faultText(fault) }, 'CAP messages could not be published');
        });
    }),
    desk: {
      publicUrl: config.listen.publicUrl ?? null,
      async entries({ organisation, sites }) {
        await publish(organisation);
        const named = sites?.map((id) => `${organisation}/${id}`);
        const now = nowMs();
        const asked = { nowMs: now, afterMs: now - LISTED_FOR_MS, most: MOST_ENTRIES };
        const found = await store.cap.living(organisation, asked, named);
        return found.map(({ summary, ...head }) => {
          const { msgType, text } = JSON.parse(summary) as { msgType: string; text: string };
          return { ...head, msgType, summary: text };
        });
      },
      async message(viewer, identifier) {
        const { organisation } = viewer;
        const found = await store.cap.message(organisation, identifier);
        if (found === null || !maySee(viewer, found.site.slice(organisation.length + 1)))
          throw new ServiceError('not_found', `no CAP message "${identifier}"`);
        return found.body;
      },
    },
  };
}
