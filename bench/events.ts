// (s) From the writing of an event to whoever follows the log by server-sent events on loopback; and what a thousand who follow
// it cost.

import { get, type IncomingMessage } from 'node:http';
import { type Child, startChild } from './child.ts';
import { type BenchStore, eachStore } from './each-store.ts';
import { line, median } from './measure.ts';

const TIMED = Number(process.env['EVENTS'] ?? 300);
const CLIENTS = Number(process.env['CLIENTS'] ?? 1000);
const TOLD = 20;
const PER_KEY = 20;
const TICK_MS = 1000;

interface Hello {
  readonly url: string;
  readonly keys: readonly string[];
}

interface Memory {
  readonly rss: number;
  readonly heapUsed: number;
  readonly streams: number;
}

export async function benchEvents(): Promise<void> {
  line('(s) the log of events, followed on loopback');
  await eachStore(async (store) => {
    const address = await store.fresh();
    const keyCount = Math.ceil(CLIENTS / PER_KEY) + 1;
    const child = await startChild<Hello>(
      'events-service.ts',
      [address, String(keyCount), String(TICK_MS)],
      ['--expose-gc'],
    );
    try {
      await one(store, child);
      await many(store, child);
    } finally {
      await child.kill();
    }
  });
}

/** Written one after the other: each has come before the next is written. */
async function one(store: BenchStore, child: Child<Hello>): Promise<void> {
  const ear = await listen(child, 0);
  const times: number[] = [];
  for (let i = 0; i < TIMED + 20; i += 1) {
    const heard = ear.next();
    await child.ask('write');
    times.push(await heard);
  }
  ear.response.destroy();
  line(`    ${store.kind}: one listener, ${TIMED} events: ${percentiles(times.slice(20))}`);
}

async function many(store: BenchStore, child: Child<Hello>): Promise<void> {
  const before = await child.ask<Memory>('memory');
  const ears = [];
  for (let i = 0; i < CLIENTS; i += 1) ears.push(await listen(child, 1 + Math.floor(i / PER_KEY)));
  const held = await child.ask<Memory>('memory');
  const times: number[] = [];
  const last: number[] = [];
  for (let i = 0; i < TOLD; i += 1) {
    const heard = Promise.all(ears.map((ear) => ear.next()));
    await child.ask('write');
    const all = await heard;
    times.push(...all);
    last.push(Math.max(...all));
  }
  const kb = (after: number, was: number): string => ((after - was) / CLIENTS / 1024).toFixed(1);
  line(
    `    ${store.kind}: ${held.streams} listeners held: ${kb(held.heapUsed, before.heapUsed)} KB of heap and ${kb(held.rss, before.rss)} KB resident each`,
  );
  line(
    `    ${store.kind}: to each of them: ${percentiles(times)}; to the last, median ${median(last).toFixed(1)} ms`,
  );
  for (const { response } of ears) response.destroy();
}

interface Ear {
  readonly response: IncomingMessage;
  /** How long the next event was on its way [ms]. */
  next(): Promise<number>;
}

async function listen({ hello: { url, keys } }: Child<Hello>, key: number): Promise<Ear> {
  const headers = { authorization: `Bearer ${keys[key]}` };
  const response = await new Promise<IncomingMessage>((resolve, reject) => {
    get(`${url}/v1/events/stream`, { headers, agent: false }, resolve).on('error', reject);
  });
  if (response.statusCode !== 200) throw new Error(`${response.statusCode} for a stream`);
  let waiting: ((ms: number) => void) | null = null;
  let text = '';
  const begun = Promise.withResolvers<void>();
  response.on('error', () => undefined);
  response.setEncoding('utf8').on('data', (part: string) => {
    const nowMs = performance.timeOrigin + performance.now();
    text += part;
    const blocks = text.split('\n\n');
    text = blocks.pop() ?? '';
    for (const block of blocks) {
      if (block.includes('event: position')) begun.resolve();
      const atMs = Number(/"plan":"([\d.]+)"/.exec(block)?.[1]);
      if (Number.isFinite(atMs)) waiting?.(nowMs - atMs);
    }
  });
  await begun.promise;
  return {
    response,
    next: () =>
      new Promise((resolve) => {
        waiting = resolve;
      }),
  };
}

function percentiles(times: readonly number[]): string {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.floor(sorted.length * share)] ?? Number.NaN).toFixed(1);
  return `p50 ${at(0.5)} ms, p99 ${at(0.99)} ms, longest ${(sorted.at(-1) ?? Number.NaN).toFixed(1)} ms`;
}
