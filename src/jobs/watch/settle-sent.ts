// What came of deliveries, kept as it comes, and what follows upon it. What comes while something is being kept is kept
// together next; what could not be kept is kept with the next.

import { isPutOff } from '#core/notices/put-off.ts';
import { inTurn } from '#memory/in-turn.ts';
import type { ClaimedDelivery } from '#store/watch/records.ts';
import { escalateMessages } from './escalate-open.ts';
import { officeMatter } from './office-matter.ts';
import type { SendDeps } from './send-deps.ts';
import type { Sent } from './send-one.ts';

export interface SettleSent {
  /** Resolves when it is kept. */
  keep(sent: Sent): Promise<void>;
  /** What could not be kept before: while nobody knows that it is out, it would be sent again. */
  rest(): Promise<void>;
}

/** `underWay`: by id, each with the last claim that is ours; what is kept is taken out. */
export function settleSent(
  deps: SendDeps,
  underWay: Map<string, ClaimedDelivery>,
  alone: <T>(run: () => Promise<T>) => Promise<T>,
): SettleSent {
  let waiting: readonly Sent[] = [];
  const rest = inTurn(async () => {
    const these = waiting;
    waiting = [];
    if (these.length === 0) return;
    try {
      await keepOptOuts(deps, these);
      const lost = new Set(
        await alone(async () => {
          const settled = these.map(({ settlement: s }) => ({
            ...s,
            token: underWay.get(s.id)?.token ?? s.token,
          }));
          const gone = await deps.store.watch.settle(settled);
          for (const { id } of settled) underWay.delete(id);
          return gone;
        }),
      );
      await goOn(
        deps,
        these.filter(({ delivery }) => !lost.has(delivery.id)),
      );
    } catch (fault) {
      waiting = [...these.filter(({ delivery }) => underWay.has(delivery.id)), ...waiting];
      throw fault;
    }
  });
  return {
    keep(sent) {
      waiting = [...waiting, sent];
      return rest();
    },
    rest,
  };
}

/** Holds whoever has the delivery by now; and the office is told of it as of one that came in, once. */
async function keepOptOuts(deps: SendDeps, these: readonly Sent[]): Promise<void> {
  const { watch } = deps.store;
  for (const { delivery, optOut } of these) {
    if (!optOut) continue;
    const { contact, address, organisation, word } = optOut;
    const known = await watch.optOuts(organisation);
    if (known.some((one) => one.contact === contact && one.address === address)) continue;
    await officeMatter(
      deps,
      delivery.site,
      { what: 'opted-out', contact, about: null, detail: word },
      delivery.id,
    );
    await watch.commit([{ site: delivery.site, replaces: null, optOuts: [optOut] }]);
  }
}

/** A silence that was ended while the try was on did not find these held back yet. */
async function letGo({ store, nowMs }: SendDeps, these: readonly Sent[]): Promise<void> {
  const held = these.filter(
    ({ settlement: { isUntried = false, detail } }) => isUntried && detail === 'silenced',
  );
  const sites = new Set(held.map(({ delivery }) => delivery.site));
  if (sites.size === 0) return;
  for (const { site } of await store.watch.silences([...sites], nowMs())) sites.delete(site);
  await store.watch.releaseHeld(sites, nowMs());
}

/** The next way, or the next person, at once. */
async function goOn(deps: SendDeps, these: readonly Sent[]): Promise<void> {
  await letGo(deps, these);
  const ended = these.filter(
    ({ delivery, settlement: { outcome, notBeforeMs = null, isUntried = false, atMs } }) =>
      outcome !== 'sent' &&
      (outcome !== 'again' || (!isUntried && isPutOff({ ...delivery, outcome: null, notBeforeMs }, atMs))),
  );
  await escalateMessages(deps, [...new Set(ended.map(({ delivery }) => delivery.message))]);
}
