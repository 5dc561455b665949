// What the service has in force is what the command line judges by: a ban entered in the office must reach the script.

import { existsSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { readConfigFile } from '#config/load.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { importFile } from '#service/import-config.ts';
import type { DefinitionKind } from '#store/definition.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { placeOf } from '../builders/store.ts';
import { DEMO_YAML } from '../service/running.ts';
import { run } from './run.ts';
import { useFiles } from './use-files.ts';

/** North block is in a go by the demo's forecast. */
const NOW = '2026-03-03T18:30:00Z';
const nowMs = () => Date.parse(NOW);
const BAN = { name: 'Burn ban', issuer: 'Kettle county' };
const { file, folder } = useFiles();
const database = () => join(folder(), 'own.db');
let own = '';
let saved = '';

beforeEach(async () => {
  for (const end of ['', '-wal', '-shm', '.lock']) rmSync(database() + end, { force: true, recursive: true });
  own = file('own.yaml', `${DEMO_YAML}\nstore: { file: own.db }\n`);
  saved ||= file('saved.json', (await run(['save', 'north-block', '--demo'], { now: NOW })).out);
});

const ask = (verb: string, ...words: string[]) =>
  run([verb, ...words, '--config', own, '--forecast', saved], { now: NOW });

/** As the service does at its start, and then as its API does. */
async function withStore(work: (store: Store) => Promise<unknown>): Promise<void> {
  const store = await openStore({ sqliteFile: database() }, { nowMs });
  const { config, written } = readConfigFile(own);
  const { organisation } = config;
  await importFile(store, { written, organisation, file: 'own.yaml', nowMs: nowMs() });
  await work(store);
  await store.close();
}

const put = (store: Store, kind: DefinitionKind, id: string, body: unknown, replaces = 0) =>
  store.definitions.change([
    {
      organisation: 'own',
      kind,
      id,
      body,
      replaces,
      origin: 'api',
      changedAtMs: nowMs(),
      changedBy: 'office',
    },
  ]);

describe('orders, limits and sites that were changed through the API', () => {
  it('without a store the file alone is judged by, and none is made', async () => {
    expect(await ask('check', 'north-block')).toMatchObject({ code: 0, err: '' });
    expect(existsSync(database())).toBe(false);
    await withStore(async () => undefined);
    expect(await ask('check', 'north-block')).toMatchObject({ code: 0, err: '' });
  });

  it('a burn ban for all sites is a stop for check, plan and windows, and for a place by --at', async () => {
    await withStore((store) => put(store, 'order', 'ban', BAN));
    for (const words of [['north-block'], ['north-block', '--day', 'today']])
      expect(await ask('check', ...words)).toMatchObject({
        code: 11,
        out: expect.stringContaining('Burn ban'),
      });
    expect((await ask('check', '--at', '36.438,-120.231', '--limits', 'valley')).code).toBe(11);
    for (const verb of ['plan', 'windows'])
      expect((await ask(verb, 'north-block')).out).toContain('Burn ban');
    expect((await run(['check', 'north-block', '--demo'], { now: NOW })).code).toBe(0);
  });

  it('a ban for another site leaves this one as it is, and a place by --at', async () => {
    await withStore((store) => put(store, 'order', 'ban', { ...BAN, sites: ['creek-block'] }));
    expect((await ask('check', 'north-block')).code).toBe(0);
    const inTheFile = await run(['check', '--at', '36.438,-120.231', '--limits', 'valley', '--demo'], {
      now: NOW,
    });
    expect((await ask('check', '--at', '36.438,-120.231', '--limits', 'valley')).code).toBe(inTheFile.code);
  });

  it('an order that cannot be read gives no go', async () => {
    await withStore((store) => put(store, 'order', 'ban', { ...BAN, verdict: 'perhaps' }));
    expect(await ask('check', 'north-block')).toMatchObject({ code: 12, out: '' });
    expect(await ask('check', '--at', '36.438,-120.231', '--limits', 'valley')).toMatchObject({
      code: 12,
      out: '',
    });
  });

  it('a stricter limit set is judged by, for a site and for --at', async () => {
    const limits = [{ element: 'relativeHumidity', atLeast: { stop: '99 %' }, source: 'office' }];
    await withStore((store) => put(store, 'limit-set', 'valley', limits, 1));
    expect((await ask('check', 'north-block')).code).toBe(11);
    expect((await ask('check', '--at', '36.438,-120.231', '--limits', 'valley')).code).toBe(11);
  });

  it('a site that only the API knows is found, and one that it took out is not', async () => {
    await withStore(async (store) => {
      const rows = await store.definitions.current();
      const body = rows.find(({ id }) => id === 'north-block')?.body as object;
      await put(store, 'site', 'new-block', { ...body, id: 'new-block' });
      await put(store, 'site', 'ridge-block', null, 1);
    });
    expect((await ask('check', 'new-block')).code).toBe(0);
    expect(await ask('check', 'ridge-block')).toMatchObject({
      code: 2,
      err: expect.stringContaining('there are: creek-block, new-block, north-block'),
    });
  });
});

describe('the file beside the store', () => {
  it('a file that was changed and not imported is said in one line, and not gone by', async () => {
    await withStore((store) => put(store, 'order', 'ban', BAN));
    writeFileSync(own, `${DEMO_YAML.replace('stop: 25 mph', 'stop: 24 mph')}\nstore: { file: own.db }\n`);
    const { code, err } = await ask('check', 'north-block');
    expect(code).toBe(11);
    expect(err).toMatch(/^The configuration file differs from what the service has.*$/);
  });

  it('a store that holds another organisation alone gives no go', async () => {
    await withStore(async () => undefined);
    writeFileSync(own, `${DEMO_YAML}\norganisation: other\nstore: { file: own.db }\n`);
    expect(await ask('check', 'north-block')).toMatchObject({ code: 12, out: '' });
  });

  it('a store that cannot be read gives no answer', async () => {
    writeFileSync(database(), 'no database, but something long enough to be looked at'.repeat(40));
    expect(await ask('check', 'north-block')).toMatchObject({ code: 12, out: '' });
    for (const verb of ['plan', 'windows'])
      expect(await ask(verb, 'north-block')).toMatchObject({ code: 1, out: '' });
    writeFileSync(database(), '');
    expect(await ask('check', 'north-block')).toMatchObject({ code: 12, out: '' });
    for (const target of ['own.db', 'not-mounted/own.db']) {
      rmSync(database());
      symlinkSync(join(folder(), target), database());
      expect(await ask('check', 'north-block')).toMatchObject({
        code: 12,
        out: '',
        err: expect.stringContaining('cannot tell whether there is a store'),
      });
    }
  });

  it('a folder where the store should be gives no answer', async () => {
    mkdirSync(database());
    expect(await ask('check', 'north-block')).toMatchObject({ code: 12, out: '' });
  });
});

describe('alerts that the service remembers', () => {
  const alert = {
    id: 'urn:oid:1',
    event: 'Red Flag Warning',
    fromMs: nowMs() - 3_600_000,
    toMs: nowMs() + 3 * 3_600_000,
    sentMs: nowMs() - 3_600_000,
    senderName: 'NWS',
    headline: 'Red Flag Warning',
    possible: false,
  };

  it('one that is gone from the list stands on in a pull from here, for an hour of complete lists', async () => {
    const standIn = await startStandIn({ nowMs });
    const live = `${DEMO_YAML.replace('http://127.0.0.1', standIn.baseUrl)}\nstore: { file: own.db }\n`;
    writeFileSync(own, live);
    const check = () => run(['check', 'north-block', '--config', own], { now: NOW });
    const remember = (missedSinceMs: number | null) =>
      withStore((store) =>
        store.commit({ places: [placeOf('36.438,-120.231', { remembered: [{ alert, missedSinceMs }] })] }),
      );
    try {
      await withStore(async () => undefined);
      expect((await check()).code).toBe(0);
      for (const missedSinceMs of [null, nowMs() - 30 * 60_000]) {
        await remember(missedSinceMs);
        expect(await check()).toMatchObject({
          code: 11,
          out: expect.stringContaining('Red Flag Warning'),
        });
      }
      await remember(nowMs() - 61 * 60_000);
      expect((await check()).code).toBe(0);
    } finally {
      await standIn.close();
    }
  });
});
