// A message of a broker → a reading: the same JSON as is posted, one reading or several, for the station that the topic
// names. A retained message is an old reading: it counts by its own time, as every other.

import { isObject } from '#sources/nws/json.ts';
import { makeFaults } from './faults.ts';
import type { ObservationReading, SiteObservation, SourceStation } from './observation-source.ts';
import { postedObservation } from './posted-observation.ts';
import { readingsIn } from './posted-schema.ts';

const MOST_BYTES = 65_536;

/** Never throws; what is refused is a fault of its station. */
export function readMessage(
  payload: Uint8Array,
  station: SourceStation,
  receivedAtMs: number,
): ObservationReading {
  const { site } = station;
  const { id } = station.station;
  const faults = makeFaults();
  const { tally } = faults.of(site, id);
  const items = itemsIn(payload);
  if (typeof items === 'string') tally.add(items, 'message', `${payload.byteLength} bytes`);
  const observations: SiteObservation[] = [];
  for (const item of typeof items === 'string' ? [] : items) {
    // The topic names the station; a body may do so, too, but not another.
    const named = isObject(item) && !('station' in item) ? { ...item, station: id } : item;
    const judged = postedObservation(named, {
      stationNamed: (name) => (name === id ? station : null),
      receivedAtMs,
    });
    const kind = judged.observation === null ? 'refused' : 'left-out';
    for (const { field, message } of judged.faults) tally.add(kind, field, message);
    if (judged.observation) observations.push({ site, observation: judged.observation });
  }
  observations.sort((a, b) => a.observation.observedAtMs - b.observation.observedAtMs);
  return { observations, stations: [], faults: faults.rows() };
}

function itemsIn(payload: Uint8Array): readonly unknown[] | 'too-large' | 'no-json' | 'no-reading' {
  if (payload.byteLength > MOST_BYTES) return 'too-large';
  let body: unknown;
  try {
    body = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(payload));
  } catch {
    return 'no-json';
  }
  return readingsIn(body) ?? 'no-reading';
}
