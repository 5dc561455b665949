// The sources of observations beside each other: what is wrong with one is no matter of the others.

import { expect, it } from 'vitest';
import { createObserving, type ObservingOptions } from '#service/watch/observing.ts';
import type {
  HeardObservations,
  ObservationSource,
  PolledObservations,
} from '#sources/stations/observation-source.ts';

const EMPTY = { observations: [], stations: [], faults: [] };

const polled = (name: string, read: PolledObservations['read']): PolledObservations => ({
  ...{ way: 'polled', name, read },
});
const heard = (name: string, listen: HeardObservations['listen']): HeardObservations => ({
  ...{ way: 'heard', name, listen },
});

/** `changed` makes stations others than they were, so that all sources are made anew. */
function observingOf(list: () => readonly ObservationSource[]) {
  const warned: unknown[] = [];
  let round = 0;
  const world = { book: {} };
  const observing = createObserving({
    config: { mqtt: [] },
    mirror: { book: () => world.book },
    stations: { all: () => [{ round }], found: () => undefined, none: () => undefined },
    nowMs: () => 0,
    log: { info: () => undefined, warn: (what: object) => warned.push(what) },
    burning: () => true,
    secret: () => null,
    sourcesOf: list,
  } as unknown as ObservingOptions);
  const changed = (): void => {
    round += 1;
    world.book = {};
  };
  return { observing, warned, changed };
}

it('a source that throws keeps none of those after it from being asked, and its fault is told', async () => {
  const asked: string[] = [];
  const { observing, warned } = observingOf(() => [
    polled('first', () => Promise.reject(new Error('out of order'))),
    polled('second', async () => {
      asked.push('second');
      return EMPTY;
    }),
  ]);
  await expect(observing.ask(new AbortController().signal)).rejects.toThrow('out of order');
  expect(asked).toEqual(['second']);
  expect(warned).toEqual([{ source: 'first', message: 'out of order' }]);
});

it('nobody is asked any more once it is called off', async () => {
  const stopping = new AbortController();
  const asked: string[] = [];
  const { observing } = observingOf(() => [
    polled('first', async () => {
      stopping.abort();
      throw new Error('called off');
    }),
    polled('second', async () => {
      asked.push('second');
      return EMPTY;
    }),
  ]);
  await expect(observing.ask(stopping.signal)).rejects.toThrow('called off');
  expect(asked).toEqual([]);
});

it('one that cannot be listened to, or closed, is told, and stops none of the others', async () => {
  const open = new Set<{ readonly name: string }>();
  const names = () => [...open].map(({ name }) => name);
  let made = 0;
  const { observing, warned, changed } = observingOf(() => {
    made += 1;
    const own = `second ${made}`;
    return [
      heard('first', () => {
        if (made > 1) throw new Error('no such port');
        return { close: () => Promise.reject(new Error('closed badly')) };
      }),
      heard('second', () => {
        const ear = { name: own };
        open.add(ear);
        return {
          async close() {
            open.delete(ear);
          },
        };
      }),
    ];
  });
  // Twice at once, as where a change takes longer than a minute.
  const stop = [observing.listen(), observing.listen()];
  await expect.poll(names).toEqual(['second 1']);
  changed();
  stop.push(observing.listen(), observing.listen());
  await expect.poll(names).toEqual(['second 2']);
  for (const end of stop) end();
  await observing.close();
  expect(names()).toEqual([]);
  expect(warned).toContainEqual({ source: null, message: 'closed badly' });
  expect(warned).toContainEqual({ source: 'first', message: 'no such port' });
});

it('what cannot even be made is told, and listened to when it can be', async () => {
  let isBroken = true;
  const open: string[] = [];
  const { observing, warned, changed } = observingOf(() => {
    if (isBroken) throw new Error('stations of nobody');
    return [
      heard('mast', () => {
        open.push('mast');
        return { close: async () => undefined };
      }),
    ];
  });
  const stop = observing.listen();
  await expect.poll(() => warned).toEqual([{ source: null, message: 'stations of nobody' }]);
  isBroken = false;
  changed();
  const again = observing.listen();
  await expect.poll(() => open).toEqual(['mast']);
  stop();
  again();
  await observing.close();
});
