// What a what-if is judged by: what is kept fresh anyway, and of the rest no more questions than turns would ask.

import { beforeEach, describe, expect, it } from 'vitest';
import { placeKey } from '#core/site/place-key.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { createLastUsed } from '#service/last-used.ts';
import { createWhatIfForecasts, type WhatIfForecasts } from '#service/what-if-forecasts.ts';
import type { CellDocument } from '#sources/grid-source.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const PERIODS = { everyMin: 20, nearShiftMin: 10, alertsMin: 5, heartbeatMin: null };
/** A site of the service, a place in its cell, and one in a cell of nobody's. */
const SITE = { latDeg: 38.97, lonDeg: -92.33 };
const NEAR = { latDeg: 38.98, lonDeg: -92.34 };
const ELSEWHERE = { latDeg: 36.4, lonDeg: -120.2 };
const HELD = {
  forecast: { documentId: 'held' },
  alerts: { complete: true },
  pointTimeZone: 'America/Chicago',
};

let clock: { nowMs: number };
let asked: string[];
let held: object | null;
let kept: { document: string | null; fault: object | null };
let complete: boolean;
let cellOf: (latDeg: number) => string;
let forecasts: WhatIfForecasts;

const documentOf = (hash: string): CellDocument => ({ hash }) as CellDocument;

beforeEach(() => {
  clock = { nowMs: NOW_MS };
  asked = [];
  held = HELD;
  kept = { document: 'kept', fault: null };
  complete = true;
  cellOf = (latDeg) => (latDeg > 38 ? 'LSX 10,20' : 'HNX 1,2');
  forecasts = createWhatIfForecasts({
    mirror: {
      book: () => ({ sites: new Map([['own/a', { placeKey: placeKey(SITE) }]]) }),
      sitesIn: (cell: string) => (cell === 'LSX 10,20' ? ['own/a'] : []),
      state: () => ({ held, fault: null }),
      cell: () => ({ ...kept, receivedAtMs: NOW_MS }),
    },
    documents: { read: async (hash: string) => ({ bytes: Buffer.from(hash) }) },
    source: {
      locate: async (place: typeof SITE, before: object | null) =>
        before ?? { point: { cell: cellOf(place.latDeg), timeZone: 'America/Chicago', place } },
      cell: async ({ located, before }: { located: object; before: CellDocument | null }) => {
        asked.push(`cell after ${before?.hash ?? 'nothing'}`);
        return { located, document: documentOf(`pulled ${asked.length}`) };
      },
      alerts: async ([one]: readonly { remembered: unknown }[]) => {
        asked.push(`alerts after ${one?.remembered ?? 'nothing'}`);
        return [
          { seen: { complete, alerts: [], fetchedAtMs: clock.nowMs }, remembered: `list ${asked.length}` },
        ];
      },
      read: ({ hash }: CellDocument, _: object, cell: string) => ({ documentId: `${hash} for ${cell}` }),
    },
    periods: PERIODS,
    nowMs: () => clock.nowMs,
  } as unknown as Parameters<typeof createWhatIfForecasts>[0]);
});

/** Which document a what-if is judged by, and what was asked of the source for it. */
async function whatIf(place: typeof SITE): Promise<[string, readonly string[]]> {
  asked = [];
  const { forecast } = await forecasts.at(place);
  return [forecast.documentId, asked];
}

describe('a what-if', () => {
  it('at the place of a site is judged by what the site is judged by, and asks nobody', async () => {
    expect(await whatIf(SITE)).toEqual(['held', []]);
    held = null;
    await expect(forecasts.at(SITE)).rejects.toMatchObject({ code: 'no_forecast', retryable: true });
    expect(asked).toEqual([]);
  });

  it('in the cell of a site never pulls it, whatever became of the last turn', async () => {
    expect(await whatIf(NEAR)).toEqual(['kept for LSX 10,20', ['alerts after nothing']]);
    kept = { document: 'kept', fault: { message: 'no answer' } };
    expect(await whatIf(NEAR)).toEqual(['kept for LSX 10,20', []]);
    kept = { document: null, fault: { message: 'no answer' } };
    const none = forecasts.at(NEAR);
    await expect(none).rejects.toMatchObject({
      code: 'no_forecast',
      message: expect.stringContaining('no answer'),
    });
    expect(asked).toEqual([]);
  });

  it('elsewhere pulls a cell once in its period, and then asks what has changed', async () => {
    expect(await whatIf(ELSEWHERE)).toEqual([
      'pulled 1 for HNX 1,2',
      ['cell after nothing', 'alerts after nothing'],
    ]);
    clock.nowMs += 4 * MINUTE_MS;
    expect(await whatIf(ELSEWHERE)).toEqual(['pulled 1 for HNX 1,2', []]);
    expect(await whatIf({ ...ELSEWHERE, latDeg: 36.41 })).toEqual([
      'pulled 1 for HNX 1,2',
      ['alerts after nothing'],
    ]);
    clock.nowMs += 2 * MINUTE_MS;
    expect(await whatIf(ELSEWHERE)).toEqual(['pulled 1 for HNX 1,2', ['alerts after list 2']]);
    clock.nowMs += 4 * MINUTE_MS;
    expect(await whatIf(ELSEWHERE)).toEqual(['pulled 1 for HNX 1,2', ['cell after pulled 1']]);
  });

  it('asks again for alerts of which a part was missing, and for everything where the clock was set back', async () => {
    complete = false;
    await whatIf(ELSEWHERE);
    expect((await whatIf(ELSEWHERE))[1]).toEqual(['alerts after list 2']);
    complete = true;
    await whatIf(ELSEWHERE);
    clock.nowMs -= MINUTE_MS;
    expect((await whatIf(ELSEWHERE))[1]).toEqual(['cell after pulled 1', 'alerts after list 1']);
  });
});

describe('a memory of limited size', () => {
  it('lets go of what was not used for longest', () => {
    const memory = createLastUsed<number>(2);
    memory.set('a', 1);
    memory.set('b', 2);
    expect(memory.get('a')).toBe(1);
    memory.set('c', 3);
    expect(['a', 'b', 'c'].map(memory.get)).toEqual([1, undefined, 3]);
    memory.set('a', 4);
    memory.set('d', 5);
    expect(['a', 'c', 'd'].map(memory.get)).toEqual([4, undefined, 5]);
  });
});
