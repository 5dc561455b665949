// (k) The board of a dispatch centre with 5,000 sites and 500 open burns: how long the server takes for the page, first and
// then, for the search of a smoke's source, and how long it lets others wait meanwhile.

import { gzipSync } from 'node:zlib';
import { startStandIn } from '#demo/stand-in.ts';
import { startGateway } from '../tests/service/watch/gateway.ts';
import { startChild } from './child.ts';
import { eachStore } from './each-store.ts';
import { line, median, note } from './measure.ts';

const SITES = Number(process.env['BOARD_SITES'] ?? 5000);
const BURNS = Number(process.env['BOARD_BURNS'] ?? 500);
const ROUNDS = 9;
const AT_ONCE = 16;
/** 10:00 at the site, on a day on which the demonstration burns. */
const BEGINS_MS = Date.parse('2026-04-14T17:00:00Z');

export async function benchBoard(): Promise<void> {
  line(`(k) board of ${SITES} sites with ${BURNS} open burns: server time`);
  await eachStore(async (store) => {
    const aheadMs = BEGINS_MS - Date.now();
    const standIn = await startStandIn({ nowMs: () => Date.now() + aheadMs });
    const gateway = await startGateway();
    note(`${store.kind}: starting`);
    const address = await store.fresh();
    const child = await startChild<string>('watch-service.ts', [
      ...[standIn.baseUrl, address, gateway.url, String(SITES), String(aheadMs)],
    ]);
    try {
      note(`${store.kind}: lighting`);
      await lightAll(child.hello, () => Date.now() + aheadMs);
      await measure(store.kind, child.hello);
    } finally {
      await child.kill();
      await gateway.close();
      await standIn.close();
    }
  });
}

async function lightAll(base: string, nowMs: () => number): Promise<void> {
  let next = 0;
  const post = async (path: string, body: object): Promise<void> => {
    const answer = await fetch(`${base}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
    await answer.arrayBuffer();
  };
  const lane = async (): Promise<void> => {
    for (let i = next++; i < BURNS; i = next++) {
      await post(`/v1/sites/site-${i}/burns`, { tap: 'lit', by: 'Ana' });
      await post(`/v1/sites/site-${i}/observations`, {
        ...{ station: 'mast', time: new Date(nowMs()).toISOString(), windSpeed: '8 mph' },
        ...{ windDirection: 210, relativeHumidity: '45 %' },
      });
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
}

async function timed(url: string): Promise<{ readonly ms: number; readonly body: string }> {
  const startMs = performance.now();
  const answer = await fetch(url);
  const body = await answer.text();
  if (!answer.ok) throw new Error(`${url}: ${body.slice(0, 300)}`);
  return { ms: performance.now() - startMs, body };
}

async function measure(kind: string, base: string): Promise<void> {
  const waits: number[] = [];
  let isOver = false;
  // Somebody else, who asks all the time for what costs nothing.
  const other = (async () => {
    while (!isOver) waits.push((await timed(`${base}/healthz`)).ms);
  })();
  const first = await timed(`${base}/board`);
  isOver = true;
  await other;
  const again: number[] = [];
  const last: number[] = [];
  const search: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    again.push((await timed(`${base}/board`)).ms);
    last.push((await timed(`${base}/board?page=10`)).ms);
    search.push((await timed(`${base}/v1/smoke-sources?at=36.48,-120.20`)).ms);
  }
  const { body } = await timed(`${base}/board`);
  const ms = (value: number): string => `${value.toFixed(0)} ms`;
  line(
    `      ${kind}: first ${ms(first.ms)} (others waited ${ms(Math.max(...waits))} at the longest), then ${ms(median(again))}, a later page ${ms(median(last))}; search among all open burns ${ms(median(search))}; page ${(body.length / 1024).toFixed(0)} KB, gzip ${(gzipSync(body).length / 1024).toFixed(1)} KB`,
  );
}
