// (i) From a posted reading to the text at the gateway with 500 open burns; and 5,000 sites that worsen at once, with and
// without a SIGKILL in the middle: until the last text is handed over, and how many are lost or come twice.

import { setTimeout } from 'node:timers/promises';
import { startStandIn } from '#demo/stand-in.ts';
import { type Gateway, startGateway } from '../tests/service/watch/gateway.ts';
import { type Child, startChild } from './child.ts';
import { type BenchStore, eachStore } from './each-store.ts';
import { line, note } from './measure.ts';
import { siteOfNumber } from './watched-sites.ts';

/** Fewer of them show that it runs; `STORE=PostgreSQL` or `SQLite` measures on one alone. */
const BURNS = Number(process.env['BURNS'] ?? 500);
const TIMED = Math.min(400, BURNS);
const PER_SECOND = 10;
const STORM = Number(process.env['STORM'] ?? 5000);
const AT_ONCE = 16;
/** 10:00 at the site, on a day on which the demonstration burns. */
const BEGINS_MS = Date.parse('2026-04-14T17:00:00Z');
/** Smoke of this wind goes onto the road. */
const TURNED_FROM_DEG = 290;
const STEADY_FROM_DEG = 210;

export async function benchWatch(): Promise<void> {
  line(`(i) watched burns: from a posted reading to the text at a gateway on loopback`);
  const only = process.env['STORE'];
  await eachStore(async (store) => {
    if (only !== undefined && only !== store.kind) return;
    await latency(store);
    await storm(store, false);
    await storm(store, true);
  });
}

interface World {
  readonly gateway: Gateway;
  readonly nowMs: () => number;
  child: Child<string>;
  restart(): Promise<void>;
  close(): Promise<void>;
}

async function makeWorld(address: string, siteCount: number): Promise<World> {
  const aheadMs = BEGINS_MS - Date.now();
  const nowMs = (): number => Date.now() + aheadMs;
  const standIn = await startStandIn({ nowMs });
  const gateway = await startGateway();
  const begin = (): Promise<Child<string>> =>
    startChild('watch-service.ts', [
      standIn.baseUrl,
      address,
      gateway.url,
      String(siteCount),
      String(aheadMs),
    ]);
  const world: World = {
    gateway,
    nowMs,
    child: await begin(),
    async restart() {
      await world.child.kill('SIGKILL');
      world.child = await begin();
    },
    async close() {
      await world.child.kill();
      await gateway.close();
      await standIn.close();
    },
  };
  await inLanes(siteCount, async (i) => {
    await post(world, i, 'burns', { id: `tap-lit-${i}-0000`, tap: 'lit', by: 'Ana' });
  });
  await quiet(gateway);
  gateway.texts.length = 0;
  return world;
}

/** Posts until it is taken: whoever posts does so again where nobody answers. */
async function post(world: World, site: number, what: string, body: object): Promise<void> {
  for (;;) {
    const answer = await fetch(`${world.child.hello}/v1/sites/site-${site}/${what}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    }).catch(() => null);
    await answer?.arrayBuffer().catch(() => undefined);
    if (answer?.ok === true) return;
    await setTimeout(50);
  }
}

const reading = (atMs: number, fromDeg: number) => ({
  station: 'mast',
  time: new Date(atMs).toISOString(),
  windSpeed: '8 mph',
  windDirection: fromDeg,
  relativeHumidity: '45 %',
});

async function latency(store: BenchStore): Promise<void> {
  note(`${store.kind}: ${BURNS} open burns`);
  const world = await makeWorld(await store.fresh(), BURNS);
  try {
    await inLanes(BURNS, (i) => post(world, i, 'observations', reading(world.nowMs(), STEADY_FROM_DEG)));
    await quiet(world.gateway);
    world.gateway.texts.length = 0;
    const postedMs: number[] = [];
    const running: Promise<void>[] = [];
    const startMs = performance.now();
    for (let i = 0; i < TIMED; i += 1) {
      await setTimeout(Math.max(0, startMs + (i * 1000) / PER_SECOND - performance.now()));
      postedMs[i] = performance.now();
      running.push(post(world, i, 'observations', reading(world.nowMs(), TURNED_FROM_DEG)));
    }
    await Promise.all(running);
    await quiet(world.gateway);
    const took: number[] = [];
    for (const { to, atMs } of world.gateway.texts) {
      const site = siteOfNumber(to);
      took[site] ??= atMs - (postedMs[site] ?? Number.NaN);
    }
    const told = took.filter(Number.isFinite).sort((a, b) => a - b);
    const at = (share: number): string =>
      (told[Math.floor((told.length - 1) * share)] ?? Number.NaN).toFixed(0);
    line(
      `      ${store.kind}, ${BURNS} open burns, ${PER_SECOND} turns a second: p50 ${at(0.5)} ms, p99 ${at(0.99)} ms, longest ${at(1)} ms (goal: p99 under 1,000 ms); ${told.length} of ${TIMED} told`,
    );
  } finally {
    await world.close();
  }
}

async function storm(store: BenchStore, killed: boolean): Promise<void> {
  note(`${store.kind}: ${STORM} open burns${killed ? ', killed in the middle' : ''}`);
  const world = await makeWorld(await store.fresh(), STORM);
  try {
    const { gateway } = world;
    const startMs = performance.now();
    const posting = inLanes(STORM, (i) =>
      post(world, i, 'observations', reading(world.nowMs(), TURNED_FROM_DEG)),
    );
    let downMs = 0;
    if (killed) {
      while (gateway.texts.length < STORM / 2) await setTimeout(5);
      const beganMs = performance.now();
      await world.restart();
      downMs = performance.now() - beganMs;
    }
    await posting;
    const postedMs = performance.now() - startMs;
    await quiet(gateway);
    if (killed) await leasesEnd(gateway);
    const told = new Set(gateway.texts.map(({ to }) => to));
    const ids = new Set(gateway.texts.map(({ id }) => id));
    const lastMs = (gateway.texts.at(-1)?.atMs ?? Number.NaN) - startMs;
    line(
      `      ${store.kind}, ${STORM} sites at once${killed ? `, SIGKILL after half (${seconds(downMs)} s until it serves again)` : ''}: the last text after ${seconds(lastMs)} s (readings taken after ${seconds(postedMs)} s); lost ${STORM - told.size}, texts beyond one a site ${ids.size - told.size}, handed over twice with the same id ${gateway.texts.length - ids.size}`,
    );
  } finally {
    await world.close();
  }
}

const seconds = (ms: number): string => (ms / 1000).toFixed(1);

async function inLanes(count: number, work: (index: number) => Promise<void>): Promise<void> {
  let next = 0;
  const lane = async (): Promise<void> => {
    while (next < count) {
      const mine = next;
      next += 1;
      await work(mine);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
}

/** What a process that was killed had claimed goes out when its lease has ended, where others may hold leases too: 25 s. */
async function leasesEnd({ texts }: Gateway): Promise<void> {
  const untilMs = performance.now() + 60_000;
  while (performance.now() < untilMs && new Set(texts.map(({ to }) => to)).size < STORM) {
    await setTimeout(200);
  }
}

/** Until nothing has come for a while. */
async function quiet({ texts }: Gateway): Promise<void> {
  for (let before = -1; before !== texts.length; ) {
    before = texts.length;
    await setTimeout(3000);
  }
}
