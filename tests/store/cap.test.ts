// Published messages in the store: written once, each chain in its order, by one of several who would.

import { expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import { capMessageOf } from '../builders/cap.ts';
import { NOON_MS, onEachStore } from './on-each-store.ts';

onEachStore('messages for dispatch centres', ({ open }) => {
  it('are kept as they were written, and found by chain, by what is open, and by site', async () => {
    const { cap } = await open();
    expect(await cap.feed('own')).toBeNull();
    const first = capMessageOf({});
    const second = capMessageOf({ number: 2, identifier: 'm2', ends: true, sentMs: first.sentMs + 1000 });
    const other = capMessageOf({ chain: 'c', identifier: 'm3', site: 'own/creek-block', told: { ö: 'é' } });
    expect(await cap.add('own', 7, null, [first, other])).toBe(true);
    const feed = await cap.feed('own');
    expect(feed).toEqual({ position: 7, round: 1 });
    expect((await cap.open('own')).map((m) => m.identifier)).toEqual([first.identifier, 'm3']);
    expect(await cap.add('own', 9, feed, [second])).toBe(true);
    expect((await cap.open('own')).map((m) => m.identifier)).toEqual(['m3']);
    expect((await cap.chains('own', [first.chain])).map((m) => m.identifier)).toEqual([
      first.identifier,
      'm2',
    ]);
    expect(await cap.message('own', 'm3')).toEqual(other);
    expect(await cap.message('elsewhere', 'm3')).toBeNull();
    const living = async (afterMs: number, most: number, sites?: string[]) =>
      (await cap.living('own', { nowMs: first.expiresMs, afterMs, most }, sites)).map((m) => m.identifier);
    expect(await living(0, 9)).toEqual(['m2', first.identifier, 'm3']);
    expect(await living(0, 1)).toEqual(['m2']);
    expect(await living(0, 9, ['own/creek-block'])).toEqual(['m3']);
    expect(await living(first.expiresMs, 9)).toEqual([]);
    expect(await living(0, 9, [])).toEqual([]);
  });

  it('what stands is listed however much was told since', async () => {
    const { cap } = await open();
    const stands = capMessageOf({ chain: 'stands', identifier: 'stands', site: 'own/creek-block' });
    const later = [1, 2, 3].map((i) => {
      const sentMs = stands.sentMs + i * 1000;
      return capMessageOf({ chain: `c${i}`, identifier: `m${i}`, sentMs, expiresMs: sentMs + 60_000 });
    });
    await cap.add('own', 1, null, [stands, ...later]);
    const listed = async (nowMs: number, sites?: string[]) =>
      (await cap.living('own', { nowMs, afterMs: 0, most: 2 }, sites)).map((m) => m.identifier);
    const nowMs = stands.expiresMs - 1;
    expect(await listed(nowMs)).toEqual(['m3', 'm2', 'stands']);
    expect(await listed(nowMs, ['own/creek-block', 'own/north-block'])).toEqual(['m3', 'm2', 'stands']);
    expect(await listed(nowMs, ['own/north-block'])).toEqual(['m3', 'm2']);
    expect(await listed(stands.expiresMs)).toEqual(['m3', 'm2']);
  });

  it('of many who write from the same round one writes', async () => {
    const { cap } = await open();
    const write = (i: number, replaces: Parameters<typeof cap.add>[2]) =>
      cap.add('own', i, replaces, [capMessageOf({ chain: `c${i}`, identifier: `m${i}` })]);
    const begun = await Promise.all([0, 1, 2, 3].map((i) => write(i, null)));
    expect(begun.filter((isOurs) => isOurs)).toHaveLength(1);
    const feed = await cap.feed('own');
    const next = await Promise.all([4, 5, 6, 7].map((i) => write(i, feed)));
    expect(next.filter((isOurs) => isOurs)).toHaveLength(1);
    expect(await cap.living('own', { nowMs: 0, afterMs: 0, most: 99 })).toHaveLength(2);
  });

  it('go when they are as old as burns are kept', async () => {
    const { cap, care } = await open();
    const expired = (hours: number) =>
      capMessageOf({ identifier: `m${hours}`, expiresMs: NOON_MS - hours * HOUR_MS });
    await cap.add('own', 1, null, [expired(49), expired(47)]);
    const keep = {
      plansMs: 0,
      claimsMs: 0,
      repliesMs: 0,
      observationsMs: 0,
      auditMs: 0,
      burnsMs: 48 * HOUR_MS,
    };
    expect(await care.expire(keep)).toMatchObject({ cap: 1 });
    expect(
      (await cap.living('own', { nowMs: NOON_MS, afterMs: 0, most: 9 })).map((m) => m.identifier),
    ).toEqual(['m47']);
  });
});
