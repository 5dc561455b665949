// What the messages of an organisation are made from.

import type { CapSeverities } from '#core/cap/notice-says.ts';
import type { Site } from '#core/site/site.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import type { CapSender } from '#publish/cap/make-alert.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { SmokeDesk } from '#publish/smoke-desk.ts';
import type { UnitSystem } from '#publish/wording/show.ts';
import type { SourceLog } from '#sources/source.ts';
import type { Store } from '#store/store.ts';

export interface CapDeps {
  readonly store: Pick<Store, 'cap' | 'events' | 'watch'>;
  readonly desk: Pick<PlanDesk, 'site'>;
  readonly smoke: Pick<SmokeDesk, 'smokes'>;
  readonly say: SayCondition;
  readonly units: UnitSystem;
  readonly severities: CapSeverities;
  /** Whether burns are told with nothing amiss. */
  readonly burns: boolean;
  readonly nowMs: () => number;
  readonly log: SourceLog;
  from(organisation: string): CapSender;
  /** Keys of the sites of an organisation. */
  sitesOf(organisation: string): readonly string[];
  /** Null where it is not in force. */
  siteOf(key: string): Site | null;
}
