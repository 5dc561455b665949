// Simulated shifts on the real service: the wind turns, and who is told when. What holds of one seed holds of each.

import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { readConfigFile } from '#config/load.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { playDay } from '#play/play-day.ts';
import type { PlayedDay, PlayedEntry } from '#publish/page/played-day.ts';

const FILE = fileURLToPath(new URL('../../config/demo.yaml', import.meta.url));
const { written } = readConfigFile(FILE);
const play = (seed: number): Promise<PlayedDay> => playDay({ seed, written, version: '0.0.0-test' });

type Of<K extends PlayedEntry['kind']> = Extract<PlayedEntry, { kind: K }>;
const all = <K extends PlayedEntry['kind']>({ entries }: PlayedDay, kind: K): Of<K>[] =>
  entries.filter((entry): entry is Of<K> => entry.kind === kind);
const only = <K extends PlayedEntry['kind']>(day: PlayedDay, kind: K): Of<K> => {
  const found = all(day, kind);
  if (found.length !== 1 || !found[0]) throw new Error(`${found.length} of ${kind}`);
  return found[0];
};

/** The message that tells of the turn, as the service itself has it. */
function turnMessage(day: PlayedDay) {
  const turnMs = only(day, 'turn').atMs;
  const told = day.messages.filter((m) => m.kind === 'notice' && Date.parse(m.at) >= turnMs);
  if (told.length !== 1 || !told[0]) throw new Error(`${told.length} messages after the turn`);
  return told[0];
}

const played = new Map<number, PlayedDay>();

describe.each([7, 4242])('the shift of seed %i', { timeout: 60_000 }, (seed) => {
  let day: PlayedDay;
  beforeAll(async () => {
    day = await play(seed);
    played.set(seed, day);
  }, 60_000);

  it('is lit at light-up and read every five minutes until it is covered', () => {
    const taps = all(day, 'tap').map(({ tap, atMs }) => [tap, atMs]);
    expect(taps.map(([tap]) => tap)).toEqual(['lit', 'charging', 'covered']);
    expect(taps[0]).toEqual(['lit', day.lightUpMs]);
    const times = all(day, 'reading').map(({ atMs }) => atMs);
    const steps = new Set(times.slice(1).map((ms, i) => ms - (times[i] ?? 0)));
    expect([...steps]).toEqual([5 * MINUTE_MS]);
    expect(times.at(-1)).toBeLessThanOrEqual(Number(taps[2]?.[1]));
  });

  it('is go from light-up until the wind turns, and stop from the next reading on', () => {
    const turnMs = only(day, 'turn').atMs;
    const lit = all(day, 'reading').filter(({ atMs }) => atMs >= day.lightUpMs);
    const before = lit.filter(({ atMs }) => atMs < turnMs).map(({ verdict }) => verdict);
    const after = lit.filter(({ atMs }) => atMs >= turnMs).map(({ verdict }) => verdict);
    expect([new Set(before), new Set(after)]).toEqual([new Set(['go']), new Set(['stop'])]);
    expect(before.length).toBeGreaterThan(10);
  });

  it('tells the turn with the next reading, to the crew and to dispatch', () => {
    const turnMs = only(day, 'turn').atMs;
    const next = all(day, 'reading').find(({ atMs }) => atMs >= turnMs);
    expect((next?.atMs ?? Number.NaN) - turnMs).toBeLessThan(5 * MINUTE_MS);
    const told = all(day, 'text').filter(({ atMs }) => atMs >= turnMs && atMs <= (next?.atMs ?? 0));
    expect(told.map(({ to, atMs }) => [to.id, atMs]).sort()).toEqual([
      ['dispatch', next?.atMs],
      ['marit', next?.atMs],
    ]);
    for (const { text } of told) expect(text).toMatch(/PUT IT OUT.*county road/);
  });

  it('goes on to the second of the crew and then to the office, ten minutes apart', () => {
    const turnMs = only(day, 'turn').atMs;
    const firstTo = (id: string): number =>
      all(day, 'text').find(({ to, atMs }) => to.id === id && atMs >= turnMs)?.atMs ?? Number.NaN;
    const began = firstTo('marit');
    expect([firstTo('teo') - began, firstTo('office') - began]).toEqual([10 * MINUTE_MS, 20 * MINUTE_MS]);
  });

  it('hands each text over exactly once', () => {
    const texts = all(day, 'text');
    const deliveries = day.messages.flatMap(({ id, deliveries: own }) =>
      own.map((d) => ({ message: id, ...d })),
    );
    expect(deliveries.map(({ outcome }) => outcome)).toEqual(deliveries.map(() => 'sent'));
    expect(new Set(texts.map(({ id }) => id)).size).toBe(texts.length);
    expect(texts.length).toBe(deliveries.length);
    const names = deliveries.map((d) => `${d.message} ${d.contact} ${d.step} ${d.round}`);
    expect(new Set(names).size).toBe(names.length);
  });

  it('tells the turn in one message, and each person once in each round', () => {
    const { deliveries } = turnMessage(day);
    const perPerson = Map.groupBy(deliveries, ({ contact }) => contact);
    expect([...perPerson.keys()].sort()).toEqual(['dispatch', 'marit', 'office', 'teo']);
    for (const own of perPerson.values()) {
      expect(own.map(({ round }) => round)).toEqual(own.map((_, i) => i));
    }
    expect(perPerson.get('dispatch')).toHaveLength(1);
  });

  it('asks nobody any more after the answer: dispatch alone hears that the pit is covered', () => {
    const answeredMs = only(day, 'answer').atMs;
    const after = all(day, 'text').filter(({ atMs }) => atMs > answeredMs);
    expect(after.map(({ to }) => to.id)).toEqual(['dispatch']);
    expect(after[0]?.text).toMatch(/Pit covered at/);
    expect(turnMessage(day).answers).toHaveLength(1);
  });

  it('says DEMO at the head of every text', () => {
    for (const { text } of all(day, 'text')) expect(text).toMatch(/^DEMO /);
  });
});

it('the same seed plays the same shift, another seed another one', { timeout: 60_000 }, async () => {
  const first = played.get(7);
  expect(await play(7)).toEqual(first);
  expect(played.get(4242)?.entries).not.toEqual(first?.entries);
});
