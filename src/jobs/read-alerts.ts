// Turn: the official alerts of all places, or of those that have none yet.

import { isDeepStrictEqual } from 'node:util';
import { alertsDocument } from '#memory/alerts-document.ts';
import type { PlaceAlerts } from '#sources/grid-source.ts';
import type { Batch } from '#store/batch.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { TurnDeps } from './deps.ts';
import { locatedOf } from './locate-place.ts';

export async function readAlerts(deps: TurnDeps, subject: string, signal: AbortSignal): Promise<Batch> {
  const { mirror, store, source, tally } = deps;
  // A place that another process has just resolved is not to wait for the next turn.
  await mirror.sync();
  const wanted = new Set(
    [...mirror.places()].filter((p) => subject !== 'unread' || p.alerts === null).map((p) => p.place),
  );
  // Read anew: what is remembered of alerts must be the last that any process wrote.
  const asked = (await store.forecasts.places([...wanted])).flatMap((place) => {
    const located = locatedOf(place);
    return located === null ? [] : [{ place, located, remembered: place.remembered }];
  });
  if (asked.length === 0) return {};
  const found = await source.alerts(asked, signal);
  const incomplete = found.filter(({ seen }) => !seen.complete).length;
  tally.alertsRead(found.length - incomplete, incomplete);
  const same = await stillThere(
    deps,
    asked.map(({ place }) => place),
  );
  return batchOf(
    asked.filter((_, i) => same[i]).map(({ place }) => place),
    found.filter((_, i) => same[i]),
  );
}

/** Which places have the zones that they had: what was asked for the zones of before says nothing of those of now. */
async function stillThere({ store }: TurnDeps, asked: readonly PlaceState[]): Promise<boolean[]> {
  const places = await store.forecasts.places(asked.map(({ place }) => place));
  const zones = new Map(places.map((place) => [place.place, locatedOf(place)?.point.zones]));
  return asked.map((before) => isDeepStrictEqual(zones.get(before.place), locatedOf(before)?.point.zones));
}

function batchOf(places: readonly PlaceState[], found: readonly PlaceAlerts[]): Batch {
  const documents = new Map<string, ReturnType<typeof alertsDocument>>();
  const patches: NonNullable<Batch['places']>[number][] = [];
  const same = new Map<number, string[]>();
  for (const [i, { place, alerts, remembered }] of places.entries()) {
    const answer = found[i];
    if (answer === undefined) throw new RangeError('fewer lists of alerts than places');
    const { seen } = answer;
    const document = alertsDocument(seen);
    // Also one that is known: the store takes the occasion to mend one that is damaged.
    documents.set(document.hash, document);
    if (document.hash === alerts && JSON.stringify(remembered) === JSON.stringify(answer.remembered)) {
      same.set(seen.fetchedAtMs, [...(same.get(seen.fetchedAtMs) ?? []), place]);
      continue;
    }
    patches.push({
      place,
      alerts: document.hash,
      remembered: answer.remembered,
      alertsFetchedAtMs: seen.fetchedAtMs,
    });
  }
  return {
    documents: [...documents.values()],
    places: patches,
    alertsRead: [...same].map(([fetchedAtMs, names]) => ({ fetchedAtMs, places: names })),
  };
}
