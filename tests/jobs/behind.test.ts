// Turns taken by a process that has not heard yet of what they are about.

import { describe, expect, it } from 'vitest';
import type { TurnDeps } from '#jobs/deps.ts';
import { pullCell } from '#jobs/pull-cell.ts';
import { readAlerts } from '#jobs/read-alerts.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const CELL = 'LSX 10,20';
const SIGNAL = new AbortController().signal;
const LOCATED = { point: { cell: CELL, timeZone: 'America/Chicago' }, locatedAtMs: NOW_MS };
const PLACE = { place: '38.97,-92.33', cell: CELL, alerts: null, remembered: null, located: LOCATED };

/** What the store knows, and what of it has come to this process at first and after it has read anew. */
function process(heardAtFirst: boolean, inStore = true) {
  let heard = heardAtFirst;
  const asked: string[] = [];
  const deps = {
    mirror: {
      places: () => (heard ? [PLACE] : []),
      sync: async () => {
        heard = inStore;
      },
    },
    store: {
      forecasts: {
        cells: async () => [],
        places: async (names: readonly string[]) => names.map(() => PLACE),
      },
    },
    source: {
      cell: async () => {
        asked.push('cell');
        throw new Error('no answer');
      },
      alerts: async (places: readonly unknown[]) => {
        asked.push(`alerts of ${places.length}`);
        return places.map(() => ({
          seen: { complete: true, alerts: [], fetchedAtMs: NOW_MS },
          remembered: [],
        }));
      },
    },
    nowMs: () => NOW_MS,
    log: { info: () => undefined, warn: () => undefined },
    tally: { pulled: () => undefined, alertsRead: () => undefined },
  } as unknown as TurnDeps;
  return { deps, asked };
}

describe('a process that is behind', () => {
  it('pulls a cell whose first place another has just resolved: it is not taken for one without sites', async () => {
    for (const heard of [true, false]) {
      const { deps, asked } = process(heard);
      const batch = await pullCell(deps, CELL, 60, SIGNAL);
      expect(asked).toEqual(['cell']);
      expect(batch.cells?.map(({ cell, failures }) => [cell, failures])).toEqual([[CELL, 1]]);
    }
  });

  it('leaves a cell alone whose last site has gone', async () => {
    const { deps, asked } = process(false, false);
    expect(await pullCell(deps, CELL, 60, SIGNAL)).toEqual({});
    expect(asked).toEqual([]);
  });

  it('reads the alerts of a place that another has just resolved', async () => {
    const { deps, asked } = process(false);
    const batch = await readAlerts(deps, 'unread', SIGNAL);
    expect(asked).toEqual(['alerts of 1']);
    expect(batch.places?.map(({ place }) => place)).toEqual([PLACE.place]);
  });
});
