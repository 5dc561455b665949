// (j) The list of 5,000 sites: the first asking after a start, and then a hundred rows, filtered, searched and as a file. The
// whole request by the framework, without a socket.

import { startChild } from './child.ts';
import { type BenchStore, eachStore } from './each-store.ts';
import type { ListAsked } from './list-service.ts';
import { line, median, note } from './measure.ts';
import { NATION } from './nation.ts';

const SITES = Number(process.env['SITES'] ?? NATION.siteCount);
const CELLS = Math.min(SITES, NATION.cellCount);
const ROUNDS = 9;

const ASKED = [
  ['a hundred rows', '/'],
  ['the last page', '/?page=50'],
  ['tomorrow’s holds', '/?verdict=hold&day=tomorrow'],
  ['what needs somebody', '/?show=needs'],
  ['searched', '/?q=site+49'],
  ['as a file', '/sites.csv'],
  ['filtered as a file', '/sites.csv?verdict=hold&day=tomorrow'],
] as const;

export async function benchList(): Promise<void> {
  line(`(j) the list of ${SITES} sites in ${CELLS} cells, ms of the whole request (goal: warm under 300)`);
  await eachStore(listOn);
}

async function listOn({ kind, fresh }: BenchStore): Promise<void> {
  const standIn = await startChild<string>('nation-stand-in.ts');
  note(`${kind}: importing and pulling the sites`);
  const args = [standIn.hello, await fresh(), String(SITES), String(CELLS)];
  const service = await startChild<string>('list-service.ts', args);
  try {
    const cold = await service.ask<ListAsked>('/');
    const coldFile = await service.ask<ListAsked>('/sites.csv');
    line(
      `    ${kind}: cold, all of them judged at the first asking: list ${told([cold])}, then the file ${told([coldFile])}`,
    );
    for (const [name, url] of ASKED) {
      await service.ask<ListAsked>(url);
      const all: ListAsked[] = [];
      for (let i = 0; i < ROUNDS; i += 1) all.push(await service.ask<ListAsked>(url));
      const [last] = all;
      line(`      ${name}: ${told(all)}; ${last?.rows} rows, ${((last?.bytes ?? 0) / 1024).toFixed(0)} KiB`);
    }
    line(`      peak memory ${service.peakMb().toFixed(0)} MB resident`);
  } finally {
    await service.kill();
    await standIn.kill();
  }
}

const told = (all: readonly ListAsked[]): string => {
  const times = all.map(({ ms }) => ms);
  const busy = median(all.map(({ busyMs }) => busyMs)).toFixed(0);
  const longest = all.length > 1 ? ` (longest ${Math.max(...times).toFixed(0)})` : '';
  return `${median(times).toFixed(0)} ms${longest}, ${busy} ms of processor`;
};
