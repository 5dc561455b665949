// When a round was whole: nothing late, nothing failed, nothing left out.

import { describe, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { isWatchLate, whyNotWhole } from '#jobs/whole-round.ts';
import type { Mirror } from '#memory/mirror.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const PERIODS = { everyMin: 20, nearShiftMin: 10, alertsMin: 5, heartbeatMin: 5 };
const FAULT = { code: 'source_unreachable', message: 'no answer', atMs: NOW_MS };

interface World {
  readonly cell?: { fault?: object | null; triedAtMs?: number } | null;
  readonly place?: { cell?: string | null; alertsFetchedAtMs?: number | null } | null;
  readonly held?: { alerts: { complete: boolean } } | null;
  readonly broken?: ReadonlyMap<string, string>;
  readonly sites?: number;
  readonly tooOld?: boolean;
}

const mirrorOf = ({ cell = {}, place = {}, held, broken = new Map(), sites = 1 }: World): Mirror =>
  ({
    book: () => ({
      broken,
      sites: new Map(
        Array.from({ length: sites }, (_, i) => [`own/${i}`, { fields: { at: [38.97, -92.33] } }]),
      ),
    }),
    place: () => place && { cell: 'LSX 10,20', alertsFetchedAtMs: NOW_MS - MINUTE_MS, ...place },
    cell: () => cell && { fault: null, triedAtMs: NOW_MS - MINUTE_MS, ...cell },
    state: () => ({ held: held === undefined ? { alerts: { complete: true } } : held }),
  }) as unknown as Mirror;

const why = (world: World): string | null =>
  whyNotWhole({ mirror: mirrorOf(world), periods: PERIODS, isTooOld: () => world.tooOld ?? false }, NOW_MS);

describe('a round', () => {
  it('is whole where every cell and every list of alerts is in time, and where there are no sites', () => {
    expect(why({ sites: 3 })).toBe(null);
    expect(why({ sites: 0 })).toBe(null);
  });

  it.each<[string, World, string]>([
    ['a definition that cannot be read', { broken: new Map([['own/a', 'no limits']]) }, 'no limits'],
    ['a site without a forecast', { held: null }, 'no forecast'],
    ['a forecast that is too old, however well it was pulled', { tooOld: true }, 'too old'],
    ['a place in no cell', { place: { cell: null } }, 'never'],
    ['a cell never pulled', { cell: null }, 'never'],
    ['a failed pull, however fresh the forecast', { cell: { fault: FAULT } }, 'no answer'],
    ['a pull that is late', { cell: { triedAtMs: NOW_MS - 26 * MINUTE_MS } }, 'not pulled in time'],
    ['a pull dated ahead', { cell: { triedAtMs: NOW_MS + HOUR_MS } }, 'not pulled in time'],
    ['alerts that are late', { place: { alertsFetchedAtMs: NOW_MS - 11 * MINUTE_MS } }, 'not read in time'],
    ['alerts never read', { place: { alertsFetchedAtMs: null } }, 'not read in time'],
    ['alerts of which a part is missing', { held: { alerts: { complete: false } } }, 'not read whole'],
  ])('is not whole with %s', (_, world, told) => {
    expect(why(world)).toContain(told);
  });

  it('is whole up to five minutes after its time', () => {
    expect(why({ cell: { triedAtMs: NOW_MS - 25 * MINUTE_MS } })).toBe(null);
    expect(why({ place: { alertsFetchedAtMs: NOW_MS - 10 * MINUTE_MS } })).toBe(null);
  });
});

describe('the watch', () => {
  it.each<[string, number | null, boolean]>([
    ['looked this minute', 0, false],
    ['looked six minutes ago', 6 * MINUTE_MS, false],
    ['looked longer ago', 6 * MINUTE_MS + 1, true],
    ['never looked', null, true],
    ['looked in a time to come', -HOUR_MS, true],
  ])('that %s', (_, agoMs, isLate) => {
    expect(isWatchLate(agoMs === null ? null : NOW_MS - agoMs, NOW_MS)).toBe(isLate);
  });
});
