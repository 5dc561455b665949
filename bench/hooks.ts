// (w) From an event that is durable to the receiver that has it, over HTTP on this machine: one receiver, and a hundred of
// which thirty never answer.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout } from 'node:timers/promises';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { createEventDesk } from '#service/event-desk.ts';
import { createHooking } from '#service/hooks/hooking.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { hookAuditOf, hookBodyOf, hookOf } from '../tests/builders/hooks.ts';
import { eventOf } from '../tests/builders/store.ts';
import { addressOf, eachStore } from './each-store.ts';
import { line, median } from './measure.ts';

const EVENTS = 20;

export async function benchHooks(): Promise<void> {
  line('(w) event durable → received by webhook, on loopback');
  await eachStore(async ({ kind, fresh }) => {
    for (const [receivers, hanging] of [
      [1, 0],
      [100, 0],
      [100, 30],
    ] as const) {
      const store = await openStore(addressOf(await fresh()), { nowMs: Date.now });
      const waitsMs = await measured(store, receivers, hanging);
      await store.close();
      const sorted = waitsMs.toSorted((a, b) => a - b);
      const p99 = sorted[Math.ceil(sorted.length * 0.99) - 1] ?? Number.NaN;
      line(
        `      ${kind}, ${receivers} receivers, ${hanging} of them hang: p50 ${median(sorted).toFixed(0)} ms, p99 ${p99.toFixed(0)} ms, longest ${(sorted.at(-1) ?? 0).toFixed(0)} ms; ${sorted.length} of ${EVENTS * (receivers - hanging)} received`,
      );
    }
  });
}

/** How long each healthy receiver waited for each event [ms]. */
async function measured(store: Store, receivers: number, hanging: number): Promise<number[]> {
  const durableAtMs = new Map<string, number>();
  const receivedAtMs = new Map<string, Map<string, number>>();
  let left = 0;
  let allThere = Promise.withResolvers<void>();
  const server = createServer((request, response) => {
    const id = String(request.headers['webhook-id']);
    const to = request.url ?? '';
    request.resume().on('end', () => {
      if (to.startsWith('/hangs')) return;
      const own = receivedAtMs.get(id) ?? new Map<string, number>();
      if (!own.has(to)) left -= 1;
      own.set(to, own.get(to) ?? performance.now());
      receivedAtMs.set(id, own);
      response.writeHead(200).end();
      if (left === 0) allThere.resolve();
    });
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  for (let i = 0; i < receivers; i += 1) {
    const url = `http://127.0.0.1:${port}/${i < hanging ? 'hangs' : 'takes'}/${i}`;
    const body = hookBodyOf({ url });
    const reply = { request: null, reply: () => ({ status: 201, body: '', headers: {} }) };
    await store.hooks.add(hookOf(`hook-${i}`, { body, key: null }), hookAuditOf('subscription-made'), reply);
  }
  const hooking = await createHooking({
    ...{ store, config: { webhooks: { allow: ['127.0.0.0/8'], ports: [443], answerWithin: 15 } } },
    events: createEventDesk(store.events),
    desk: DESK,
    ...{ say: () => '', keys: () => [], worker: 'bench', takesTurns: true, nowMs: Date.now },
    steadyMs: () => performance.now(),
    log: { info: () => undefined, warn: (facts) => line(JSON.stringify(facts)) },
    publicUrl: null,
  });
  hooking.start();
  for (let i = 1; i <= EVENTS; i += 1) {
    left = receivers - hanging;
    allThere = Promise.withResolvers();
    // At any moment between two looks of the sender.
    await setTimeout(Math.random() * 250);
    await store.commit({
      events: [eventOf('fern-hollow/north-block', { kind: 'forecast-stale', data: { changes: [] } })],
    });
    durableAtMs.set(String(i), performance.now());
    await allThere.promise;
  }
  await hooking.stop();
  server.closeAllConnections();
  server.close();
  return [...durableAtMs].flatMap(([id, atMs]) =>
    [...(receivedAtMs.get(id)?.values() ?? [])].map((receivedMs) => Math.max(0, receivedMs - atMs)),
  );
}

const SITES: readonly DeskSite[] = [];
const DESK = {
  sites: () => SITES,
  preferences: { units: 'us', language: 'en' },
} as unknown as PlanDesk;
