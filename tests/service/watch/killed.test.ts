// A service that is killed again and again while notices are raised and texts go out: whatever was raised has its text at the
// gateway, and what came twice came under one id.

import { hash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, expect, it } from 'vitest';
import { startStandIn } from '#demo/stand-in.ts';
import { openStore } from '#store/open-store.ts';
import type { MessageThread } from '#store/watch/records.ts';
import { crewNumber, watchedConfig } from '../../../bench/watched-sites.ts';
import { endAll, type Started, start, until } from '../processes.ts';
import { type Gateway, startGateway } from './gateway.ts';

/** So long after taps and readings are posted [ms]: while it judges, while it sends. */
const KILLED_AFTER_MS = [10, 120];
const SITES_EACH = 10;
const SITES = KILLED_AFTER_MS.length * SITES_EACH;

const closing: (() => unknown)[] = [];
afterAll(async () => {
  endAll();
  for (const close of closing.reverse()) await close();
});

interface World {
  readonly gateway: Gateway;
  readonly file: string;
  begin(): Started;
}

async function makeWorld(): Promise<World> {
  const gateway = await startGateway();
  closing.push(gateway.close);
  const standIn = await startStandIn({ nowMs: Date.now });
  closing.push(standIn.close);
  const folder = mkdtempSync(join(tmpdir(), 'pitward-killed-'));
  closing.push(() => rmSync(folder, { recursive: true, force: true }));
  const config = join(folder, 'pitward.yaml');
  const file = join(folder, 'pitward.db');
  const watched = JSON.parse(watchedConfig(SITES, standIn.baseUrl, gateway.url));
  writeFileSync(config, JSON.stringify({ ...watched, store: { file } }));
  return { gateway, file, begin: () => start(['serve', '--port', '0', '--config', config], {}) };
}

it('loses no text that was raised, however often it is killed', { timeout: 180_000 }, async () => {
  const { gateway, file, begin } = await makeWorld();
  let service = begin();
  let url = await service.address();
  /** Until it is taken: whoever gets no answer sends the same again. */
  const post = (site: number, what: string, body: object) =>
    until(`${what} of ${site}`, async () => {
      const answer = await fetch(`${url}/v1/sites/site-${site}/${what}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }).catch(() => null);
      return answer?.ok === true ? true : null;
    });
  const burn = async (site: number): Promise<void> => {
    await post(site, 'burns', { id: `tap-lit-${site}-0000`, tap: 'lit', by: 'Ana' });
    // Smoke of this wind goes onto the road: a stop.
    await post(site, 'observations', {
      station: 'mast',
      time: new Date().toISOString(),
      windSpeed: '8 mph',
      windDirection: 290,
      relativeHumidity: '45 %',
    });
  };
  await until('a forecast', async () => ((await fetch(`${url}/readyz`)).ok ? true : null));
  for (const [round, afterMs] of KILLED_AFTER_MS.entries()) {
    const burning = Array.from({ length: SITES_EACH }, (_, i) => burn(round * SITES_EACH + i));
    await setTimeout(afterMs);
    await service.end('SIGKILL');
    service = begin();
    url = await service.address();
    await Promise.all(burning);
  }
  const stopTold = (site: number): boolean =>
    gateway.texts.some(({ to, text }) => to === crewNumber(site) && text.includes('county road'));
  const sites = Array.from({ length: SITES }, (_, i) => i);
  // What a killed process had claimed is free again when its lease has ended.
  await until('all texts', () => (sites.every(stopTold) ? true : null), 60_000);
  await service.end('SIGTERM');
  booksAreRight(await threadsOf(file), gateway);
});

async function threadsOf(file: string): Promise<MessageThread[]> {
  const store = await openStore({ sqliteFile: file }, { nowMs: Date.now });
  const keys = Array.from({ length: SITES }, (_, i) => `own/site-${i}`);
  const found = await Promise.all(keys.map((key) => store.watch.threads(key, 0, Date.now() + 1000, 1000)));
  await store.close();
  return found.flat();
}

function booksAreRight(threads: readonly MessageThread[], { texts }: Gateway): void {
  const told = (id: string): string => hash('sha256', id, 'hex').slice(0, 32);
  const deliveries = threads.flatMap((thread) => thread.deliveries);
  const kept = new Map(deliveries.map((one) => [told(one.id), one]));
  const came = new Set(texts.map(({ id }) => id));
  // Nothing came that is not kept, nothing to somebody else, and what is kept as sent did come.
  for (const { id, to } of texts) expect(kept.get(id)?.to).toBe(to);
  for (const { id, outcome } of deliveries) if (outcome === 'sent') expect(came).toContain(told(id));
  // Whatever was raised is on its way: one delivery at least of every notice, and none given up.
  for (const { message, deliveries: own } of threads) {
    if (message.kind !== 'notice') continue;
    expect(own.length, message.id).toBeGreaterThan(0);
    for (const { outcome } of own) expect(['sent', 'superseded', null]).toContain(outcome);
  }
  // Each stop of smoke is one message of its site, judged and told once, whoever was killed over it.
  const stops = threads.filter(({ message }) =>
    message.transitions.some((t) => t.condition.code === 'smoke-turned-to-place' && t.kind === 'raised'),
  );
  expect(stops.length).toBe(SITES);
  expect(new Set(stops.map(({ message }) => message.site)).size).toBe(SITES);
}
