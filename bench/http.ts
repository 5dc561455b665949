// (b) GET …/windows against bare Fastify sending the same bytes: requests per second and p99, in alternating rounds.

import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import autocannon from 'autocannon';
import { line, median } from './measure.ts';

interface Round {
  readonly perSecond: number;
  readonly p99Ms: number;
}

const ROUNDS = 5;
const SECONDS = 4;

export async function benchHttp(): Promise<void> {
  const service = await startChild(['service']);
  const body = await (await fetch(service.url)).text();
  const bare = await startChild(['bare', body]);
  const rounds: { service: Round[]; bare: Round[] } = { service: [], bare: [] };
  await fire(service.url);
  await fire(bare.url);
  for (let i = 0; i < ROUNDS; i += 1) {
    rounds.service.push(await fire(service.url));
    rounds.bare.push(await fire(bare.url));
  }
  for (const { child } of [service, bare]) child.kill();
  const ratio = median(rounds.service.map((r, i) => r.perSecond / (rounds.bare[i]?.perSecond ?? Number.NaN)));
  const p99 = median(
    rounds.service.map((r, i) => r.p99Ms / Math.max(1, rounds.bare[i]?.p99Ms ?? Number.NaN)),
  );
  line(
    `(b) GET /v1/sites/…/windows (${(body.length / 1024).toFixed(1)} KiB) against bare Fastify with the same bytes, median of ${ROUNDS} alternating rounds`,
  );
  line(
    `      requests per second ${ratio.toFixed(2)} of bare (goal: at least 0.85); p99 ${p99.toFixed(2)} of bare (goal: at most 1.5)`,
  );
  const show = (list: readonly Round[]) =>
    list.map((r) => `${(r.perSecond / 1000).toFixed(1)}k/${r.p99Ms} ms`).join('  ');
  line(`      service ${show(rounds.service)}`);
  line(`      bare    ${show(rounds.bare)}`);
}

async function fire(url: string): Promise<Round> {
  const result = await autocannon({ url, connections: 16, duration: SECONDS });
  if (result.non2xx > 0 || result.errors > 0)
    throw new Error(`${result.non2xx} answers were no 200, ${result.errors} errors`);
  return { perSecond: result.requests.average, p99Ms: result.latency.p99 };
}

function startChild(args: readonly string[]): Promise<{ url: string; child: ChildProcess }> {
  const child = fork(fileURLToPath(new URL('./http-child.ts', import.meta.url)), [...args]);
  return new Promise((resolve, reject) => {
    child.once('message', (url) => resolve({ url: String(url), child }));
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
}
