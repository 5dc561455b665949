// (f) One full cycle of the invented nation against a stand-in on this machine, and the API meanwhile. The network is taken
// out twice: by the same requests sent by nothing but undici, and by the processor time of the process.

import { setTimeout } from 'node:timers/promises';
import { Agent, request } from 'undici';
import { startChild } from './child.ts';
import { type BenchStore, eachStore } from './each-store.ts';
import { line, note } from './measure.ts';
import { NATION } from './nation.ts';
import type { CycleDone } from './nation-service.ts';
import { type Load, steadyLoad } from './steady-load.ts';

const ASKED_PER_SECOND = 40;
const IDLE_S = 20;

export async function benchCycle(): Promise<void> {
  line(
    `(f) ${NATION.siteCount} sites in ${NATION.cellCount} cells: every cell pulled, alerts read, every site planned; one process, ${ASKED_PER_SECOND} GET …/windows a second meanwhile, of sites at random`,
  );
  await eachStore(cycleOn);
}

async function cycleOn({ kind, fresh }: BenchStore): Promise<void> {
  const standIn = await startChild<string>('nation-stand-in.ts');
  const size = [NATION.siteCount, NATION.cellCount].map(String);
  note(`${kind}: importing the sites`);
  const service = await startChild<string>('nation-service.ts', [standIn.hello, await fresh(), ...size]);
  try {
    note(`${kind}: first cycle, places resolved too`);
    const first = await service.ask<CycleDone>('cycle');
    await standIn.ask('next issue');
    note(`${kind}: idle API`);
    const idle = await askAtRandom(service.hello, setTimeout(IDLE_S * 1000));
    note(`${kind}: second cycle, with a new document in every cell`);
    const cycle = service.ask<CycleDone>('cycle');
    const busy = await askAtRandom(service.hello, cycle);
    const done = await cycle;
    const asked = await standIn.ask<string[]>('next issue');
    note(`${kind}: the same requests by undici alone`);
    const bareS = await bareSeconds(standIn.hello, asked);
    const peakMb = service.peakMb();
    line(
      `    ${kind}: ${done.rows['plans']} plans, ${done.rows['events']} events, ${done.rows['documents']} documents kept`,
    );
    line(
      `      cycle ${done.seconds.toFixed(0)} s, ${done.busy.toFixed(0)} s of processor; ${asked.length} requests, by undici alone ${bareS.toFixed(0)} s: ${(done.seconds - bareS).toFixed(0)} s without the network (first cycle ${first.seconds.toFixed(0)} s, ${first.busy.toFixed(0)} s of processor)`,
    );
    line(`      peak memory ${peakMb.toFixed(0)} MB resident`);
    line(`      API idle ${told(idle)}`);
    line(`      API in the cycle ${told(busy)}`);
    line(
      `      ratio p50 ${(busy.p50Ms / idle.p50Ms).toFixed(1)}, p99 ${(busy.p99Ms / idle.p99Ms).toFixed(1)}`,
    );
  } finally {
    await service.kill();
    await standIn.kill();
  }
}

function askAtRandom(url: string, ended: Promise<unknown>): Promise<Load> {
  // The same sites in every run: a linear congruential generator (Numerical Recipes' constants).
  let seed = 1;
  return steadyLoad(
    ASKED_PER_SECOND,
    () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return `${url}/v1/sites/site-${seed % NATION.siteCount}/windows?day=tomorrow`;
    },
    ended,
  );
}

const told = ({ count, p50Ms, p99Ms, longestMs, refused }: Load): string =>
  `p50 ${p50Ms.toFixed(1)} ms, p99 ${p99Ms.toFixed(0)} ms, longest ${longestMs.toFixed(0)} ms of ${count}${Object.keys(refused).length > 0 ? `, not answered: ${JSON.stringify(refused)}` : ''}`;

/** Two at once, as the source asks. */
async function bareSeconds(baseUrl: string, paths: readonly string[]): Promise<number> {
  const agent = new Agent({ connections: 2 });
  const start = performance.now();
  const rest = [...paths].reverse();
  const lane = async (): Promise<void> => {
    for (let path = rest.pop(); path !== undefined; path = rest.pop()) {
      const { body } = await request(`${baseUrl}${path}`, { dispatcher: agent });
      await body.bytes();
    }
  };
  await Promise.all([lane(), lane()]);
  const seconds = (performance.now() - start) / 1000;
  await agent.close();
  return seconds;
}
