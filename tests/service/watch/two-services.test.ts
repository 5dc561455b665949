// Two services over one database look at the same pit, send, and ask again at the same moments: each text goes out once
// (alertmanager#1341, #2222: every replica notifies). And one that is killed while it sends: the other sends it, under the
// same id, when the claim of the dead one has run out (alertmanager#2370: what was pending was gone).

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { startStandIn } from '#demo/stand-in.ts';
import { watchedConfig } from '../../../bench/watched-sites.ts';
import { freshDatabase } from '../../postgres/fresh-database.ts';
import { postgresPrograms } from '../../postgres/server.ts';
import { endAll, start, until } from '../processes.ts';
import { startRunning } from '../running.ts';
import { startGateway } from './gateway.ts';
import { keptIn } from './kept-in.ts';
import { TEN, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const noPostgres = postgresPrograms() === null;
if (noPostgres) console.log('The test of two services needs PostgreSQL: skipped.');

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});
afterAll(endAll);

describe.skipIf(noPostgres)('two services over one database', { timeout: 180_000 }, () => {
  it('tell each thing once, whoever is told of it first, and however they run into each other', async () => {
    const gateway = await startGateway();
    closing.push(gateway.close);
    const openKept = keptIn({ databaseUrl: await freshDatabase() });
    const both: WatchedDemo[] = [];
    for (const _ of ['first', 'second']) {
      const demo = await startWatchedDemo(TEN, undefined, { gateway, openKept });
      both.push(demo);
      closing.push(demo.close);
    }
    const [one, other] = both as [WatchedDemo, WatchedDemo];
    const pass = (minutes: number) => {
      for (const demo of both) demo.pass(minutes);
    };
    const minute = () =>
      Promise.all(
        both.flatMap(({ service: { watching } }) => [
          watching.turns.watch(new AbortController().signal),
          watching.escalate(),
          watching.send(),
        ]),
      );
    // A phone that got no answer taps at the other one too, and an instrument posts to both.
    const tap = { id: 'tap-lit-twice', tap: 'lit', by: 'Ana' };
    const reading = (fromDeg: number) => ({
      station: 'mast',
      time: new Date(one.clock.nowMs).toISOString(),
      windSpeed: '8 mph',
      windDirection: fromDeg,
      relativeHumidity: '45 %',
    });
    await Promise.all(both.map((demo) => demo.api('POST', `${SITE}/observations`, reading(210))));
    const lit = await Promise.all(both.map((demo) => demo.api('POST', `${SITE}/burns`, tap)));
    expect(lit.map(({ status }) => status).sort()).toEqual([200, 201]);
    await minute();
    for (let i = 0; i < 5; i += 1) {
      pass(5);
      await Promise.all(
        both.map((demo) => demo.api('POST', `${SITE}/observations`, reading(TURNED.fromDeg))),
      );
      await minute();
      await minute();
    }
    expect(new Set(gateway.asked.map(({ id }) => id)).size).toBe(gateway.asked.length);
    const stops = gateway.texts.filter(({ text }) => text.includes('PUT IT OUT'));
    const to = (number: string): number => stops.filter((text) => text.to === number).length;
    // The first telling and its repeats at 5, 10 and 15 minutes; the next asked at 10, the office at 20.
    expect([to(CREW), to(LEAD), to(OFFICE)]).toEqual([4, 3, 1]);
    pass(1);
    // One answer, brought by the gateway to both.
    const answers = both.map((demo) => demo.inbound(CREW, '1', 'answer-1'));
    expect(await Promise.all(answers)).toContain('answer');
    const before = gateway.asked.length;
    pass(9);
    await Promise.all(both.map((demo) => demo.api('POST', `${SITE}/observations`, reading(TURNED.fromDeg))));
    await minute();
    expect(gateway.asked.length).toBe(before);
    const { body } = await other.api('GET', `${SITE}/messages`);
    const told = (body['messages'] as { kind: string; answers: unknown[] }[]).filter(
      ({ answers: a }) => a.length > 0,
    );
    expect(told.map(({ answers: a }) => a.length)).toEqual([1]);
  });

  it('of which one is killed while it sends: the other sends it when the claim has run out, under the same id', async () => {
    const gateway = await startGateway();
    const standIn = await startStandIn({ nowMs: Date.now });
    const folder = mkdtempSync(join(tmpdir(), 'pitward-two-'));
    closing.push(gateway.close, standIn.close, () => rmSync(folder, { recursive: true, force: true }));
    const databaseUrl = await freshDatabase();
    const config = join(folder, 'pitward.yaml');
    const written = watchedConfig(1, standIn.baseUrl, gateway.url);
    writeFileSync(config, written);
    const killed = start(['serve', '--port', '0', '--config', config], { DATABASE_URL: databaseUrl });
    const url = await killed.address();
    await until('a forecast', async () => ((await fetch(`${url}/readyz`)).ok ? true : null));
    // It is taken, and never answered: whoever sent it waits.
    gateway.bad.push({ never: true, taken: true });
    const lit = await fetch(`${url}/v1/sites/site-0/burns`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ tap: 'lit', by: 'Ana', id: 'tap-lit-0000' }),
    });
    expect(lit.status).toBe(201);
    await until('a text', () => (gateway.asked.length > 0 ? true : null));
    expect(await killed.end('SIGKILL')).toBe('SIGKILL');
    const sent = gateway.asked.length;

    const at = (aheadMs: number) => new Date(Date.now() + aheadMs).toISOString();
    const left = await startRunning(at(0), () => written, true, { openKept: keptIn({ databaseUrl }) });
    closing.push(left.close);
    await left.service.watching.send();
    // Another has it, as far as anybody knows.
    expect(gateway.asked.length).toBe(sent);
    left.clock.nowMs = Date.parse(at(26_000));
    await left.service.watching.send();
    const ids = gateway.asked.map(({ id }) => id);
    expect(ids.slice(sent)).toEqual([ids[0]]);
    await left.service.watching.send();
    expect(gateway.asked.length).toBe(sent + 1);
  });
});
