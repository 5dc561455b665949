// (m) The page of a day among 5,000 sites, asked for at a steady 100 a second over sockets, each time of another site, beside
// the bare answer of the API at the same rate: of the median both are told, and their ratio.

import { setTimeout } from 'node:timers/promises';
import { startChild } from './child.ts';
import { type BenchStore, eachStore } from './each-store.ts';
import { line, note } from './measure.ts';
import { NATION } from './nation.ts';
import { type Load, steadyLoad } from './steady-load.ts';

const SITES = Number(process.env['SITES'] ?? NATION.siteCount);
const CELLS = Math.min(SITES, NATION.cellCount);
const A_SECOND = 100;
const SECONDS = 10;
/** Coprime with the number of sites: each once before any comes again. */
const STEP = 1009;

const ASKED = [
  ['GET /v1/sites/{id}/plan', (id: string) => `/v1/sites/${id}/plan?day=tomorrow`],
  ['the page of the day', (id: string) => `/sites/${id}?day=tomorrow`],
  ['the glance', (id: string) => `/sites/${id}/now`],
] as const;

export async function benchPages(): Promise<void> {
  line(
    `(m) pages at ${A_SECOND} a second, another of ${SITES} sites each time, over sockets (goal: median of a day under 3 ms)`,
  );
  await eachStore(pagesOn);
}

async function pagesOn({ kind, fresh }: BenchStore): Promise<void> {
  const standIn = await startChild<string>('nation-stand-in.ts');
  note(`${kind}: importing and pulling the sites`);
  const args = [standIn.hello, await fresh(), String(SITES), String(CELLS)];
  const service = await startChild<string>('nation-service.ts', args);
  try {
    await service.ask('cycle');
    const at = (of: (id: string) => string, offset: number) => (index: number) =>
      `${service.hello}${of(`site-${(index * STEP + offset) % SITES}`)}`;
    const asked = async (of: (id: string) => string, offset: number): Promise<Load> =>
      steadyLoad(A_SECOND, at(of, offset), setTimeout(SECONDS * 1000));
    const bare = await asked(ASKED[0][1], 0);
    for (const [name, of] of ASKED) {
      // The first round of each warms what is warm in a service that has run for an hour.
      await asked(of, 7);
      const load = await asked(of, 500);
      line(
        `      ${kind}, ${name}: median ${load.p50Ms.toFixed(1)} ms (${(load.p50Ms / bare.p50Ms).toFixed(2)} of the answer), p99 ${load.p99Ms.toFixed(0)} ms, ${load.count} asked${refusedOf(load)}`,
      );
    }
  } finally {
    await service.kill();
    await standIn.kill();
  }
}

const refusedOf = ({ refused }: Load): string => {
  const some = Object.entries(refused).map(([what, count]) => `${count} times ${what}`);
  return some.length === 0 ? '' : `; refused: ${some.join(', ')}`;
};
