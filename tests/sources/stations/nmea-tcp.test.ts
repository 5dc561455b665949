// Sentences over real TCP on this machine. The clock moves a second with every look at it, so that lines have times of
// their own; waiting to connect again takes no time.

import { createServer, type Server, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { backOffMs } from '#sources/stations/back-off.ts';
import { makeLineSplitter } from '#sources/stations/line-splitter.ts';
import { makeNmeaFeed, nmeaStations } from '#sources/stations/nmea-tcp.ts';
import type { SourceStation } from '#sources/stations/observation-source.ts';
import { START_MS, station } from './fake-stations.ts';
import { makeEars, makeTold } from './told.ts';

const LINE = '$WIMWV,214.8,R,18.0,K,A*10';
const SHOT = '$INMWD,52.7,T,,M,3.5,N,1.8,M*52';

const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function instrument() {
  const sockets = makeTold<Socket>();
  const server: Server = createServer((socket) => {
    socket.on('error', () => undefined);
    sockets.push(socket);
  });
  const listen = (port: number) =>
    new Promise<number>((resolve) => {
      server.listen(port, '127.0.0.1', () => resolve((server.address() as { port: number }).port));
    });
  const port = await listen(0);
  const stop = () =>
    new Promise<void>((resolve) => {
      for (const socket of sockets.all) socket.destroy();
      server.close(() => resolve());
    });
  closing.push(stop);
  return { port, sockets, stop, listen };
}

function ticking(startMs = START_MS) {
  let now = startMs;
  const slept: number[] = [];
  return {
    slept,
    nowMs: () => {
      now += 1_000;
      return now;
    },
    sleep: async (ms: number, signal: AbortSignal) => {
      slept.push(ms);
      signal.throwIfAborted();
      // Real time passes for the machine; none for the test.
      await new Promise((resolve) => setImmediate(resolve));
      signal.throwIfAborted();
    },
    random: () => 0.5,
  };
}

const mast = (port: number, more: { site?: string; id?: string } = {}) =>
  ({
    ...station(
      { kind: 'nmea', host: '127.0.0.1', port, transducers: [] },
      { id: 'mast', windAveragingS: 10, ...more },
    ),
    directions: { reference: 'true', declinationDeg: null, mountDeg: 0 },
  }) as SourceStation & { source: { kind: 'nmea'; host: string; port: number; transducers: string[] } };

function listen(
  stations: ReturnType<typeof mast>[],
  clock = ticking(),
  timing?: { connectMs: number; silentMs: number },
) {
  const ears = makeEars();
  const feed = makeNmeaFeed(stations, clock, timing);
  const listening = feed.listen(ears.readings.push, ears.states.push);
  closing.push(() => listening.close());
  return { ...ears, clock, listening };
}

const lines = (line: string, count: number): string => `${line}\r\n`.repeat(count);

describe('an instrument over TCP', () => {
  it('is up with its first sentence, and tells one observation for each period', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)]);
    const socket = await sockets.next();
    socket.write(lines(LINE, 1));
    expect(await ears.up()).toMatchObject({
      up: true,
      why: null,
      stations: [{ site: 'own/mill-bend', station: 'mast' }],
    });
    socket.write(lines(LINE, 20));
    const { observations } = await ears.readings.next(
      ({ observations: o }) => o[0]?.observation.wind.kind === 'blowing',
    );
    expect(observations[0]).toMatchObject({
      site: 'own/mill-bend',
      observation: { station: 'mast', wind: { fromDeg: expect.closeTo(214.8, 6) }, windAveragingS: 10 },
    });
  });

  it('reads lines that come in pieces, and sentences among noise', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)]);
    const socket = await sockets.next();
    socket.setNoDelay(true);
    socket.write(`noise\n${LINE.slice(0, 9)}`);
    socket.write(`${LINE.slice(9)}\r`);
    socket.write(`\n${LINE.replace('214', '114')}\n`);
    await ears.up();
    socket.write(lines(LINE, 20));
    const { faults } = await ears.readings.next(({ faults: f }) => f.length > 0);
    expect(faults.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['no-sentence']));
  });

  it('a line without end is dropped, and told, and the next one is read', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)]);
    const socket = await sockets.next();
    socket.write(`${'x'.repeat(100_000)}\n`);
    const { faults } = await ears.readings.next();
    expect(faults).toMatchObject([
      { kind: 'line-too-long', site: 'own/mill-bend', station: 'mast', count: 1 },
    ]);
    socket.write(lines(LINE, 1));
    await ears.up();
  });

  it('connects again when the other side closes, and gives what it had', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)]);
    const first = await sockets.next();
    first.end(lines(SHOT, 4));
    await ears.up();
    expect(await ears.down()).toMatchObject({ why: 'the other side closed the connection' });
    expect(ears.readings.all.flatMap(({ observations }) => observations)).not.toEqual([]);
    const second = await sockets.next();
    second.write(lines(LINE, 1));
    await ears.up();
    expect(ears.clock.slept).toEqual([1_000]);
  });

  it('waits longer each time while nobody answers, and is told why', async () => {
    const { port, stop, listen: listenAgain, sockets } = await instrument();
    await stop();
    const ears = listen([mast(port)]);
    for (let i = 0; i < 8; i += 1) expect((await ears.down()).why).toMatch(/ECONNREFUSED/);
    expect(ears.clock.slept.slice(0, 7)).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 60_000]);
    await listenAgain(port);
    (await sockets.next()).write(lines(LINE, 1));
    await ears.up();
  });

  it('a caller that is taken and dropped at once waits longer, too: a connection alone is no success', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)]);
    for (let i = 0; i < 4; i += 1) (await sockets.next()).destroy();
    await ears.down();
    await ears.down();
    await ears.down();
    await ears.down();
    expect(ears.clock.slept.slice(0, 3)).toEqual([1_000, 2_000, 4_000]);
    expect(ears.states.all.some(({ up }) => up)).toBe(false);
    (await sockets.next()).end(lines(LINE, 1));
    await ears.up();
    await ears.down();
    await sockets.next();
    expect(ears.clock.slept.slice(0, 5)).toEqual([1_000, 2_000, 4_000, 8_000, 1_000]);
  });

  it('silence is down, and ends the connection', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)], ticking(), { connectMs: 5_000, silentMs: 40 });
    const socket = await sockets.next();
    expect(await ears.down()).toMatchObject({ why: 'silent' });
    expect(socket.destroyed || socket.readableEnded || (await ended(socket))).toBe(true);
  });

  it('noise without a sentence is down, too', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)], ticking(), { connectMs: 5_000, silentMs: 5_000 });
    (await sockets.next()).write(lines(LINE.replace('*10', '*11'), 12));
    expect(await ears.down()).toMatchObject({ why: 'nothing that can be read' });
    expect(ears.states.all.some(({ up }) => up)).toBe(false);
  });

  it('nothing is told after it was closed', async () => {
    const { port, sockets } = await instrument();
    const ears = listen([mast(port)]);
    const socket = await sockets.next();
    socket.write(lines(LINE, 1));
    await ears.up();
    await ears.listening.close();
    const before = ears.readings.all.length + ears.states.all.length;
    socket.write(lines(LINE, 50));
    await ended(socket);
    expect(ears.readings.all.length + ears.states.all.length).toBe(before);
  });

  it('stations that name one address share one connection', async () => {
    const { port, sockets } = await instrument();
    const two = [mast(port, { site: 'own/a' }), mast(port, { site: 'own/b' })];
    expect(nmeaStations(two, ticking() as never)).toHaveLength(1);
    expect(nmeaStations([], ticking() as never)).toEqual([]);
    const ears = listen(two);
    (await sockets.next()).write(lines(LINE, 20));
    const sites = [await ears.readings.next(), await ears.readings.next()].map(
      ({ observations }) => observations[0]?.site,
    );
    expect(sites).toEqual(['own/a', 'own/b']);
    expect(sockets.all).toHaveLength(1);
  });
});

const ended = (socket: Socket): Promise<boolean> =>
  new Promise((resolve) => {
    if (socket.destroyed) resolve(true);
    else socket.once('close', () => resolve(true));
  });

describe('waiting', () => {
  it('is from a half to one and a half of 1, 2, 4 … 60 s, however often', () => {
    expect([1, 2, 7, 8, 1_000].map((tries) => backOffMs(tries, () => 0.5))).toEqual([
      1_000, 2_000, 60_000, 60_000, 60_000,
    ]);
    expect([backOffMs(1, () => 0), backOffMs(1, () => 1)]).toEqual([500, 1_500]);
  });
});

describe('lines', () => {
  it('any cut of a text gives the same lines', () => {
    const text = `a\r\nbb\n\nccc\r\n${'d'.repeat(30)}\ne`;
    const whole = makeLineSplitter(20).push(Buffer.from(text));
    for (let cut = 0; cut <= text.length; cut += 1) {
      const splitter = makeLineSplitter(20);
      const parts = [text.slice(0, cut), text.slice(cut)].map((part) => splitter.push(Buffer.from(part)));
      expect(parts.flatMap(({ lines: l }) => l)).toEqual(whole.lines);
      expect(parts.reduce((sum, { dropped }) => sum + dropped, 0)).toBe(1);
    }
    expect(whole.lines).toEqual(['a', 'bb', 'ccc']);
  });
});
