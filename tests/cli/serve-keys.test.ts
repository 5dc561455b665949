// The program as it is run where others can reach it: no start without a key, two live keys, a key that ends while it is
// used, and an end in good order.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type StandIn, startStandIn } from '#demo/stand-in.ts';
import { openStore } from '#store/open-store.ts';
import { DEMO_YAML } from '../service/running.ts';
import { run } from './run.ts';

const MAIN = fileURLToPath(new URL('../../src/main.mjs', import.meta.url));
const now = new Date().toISOString();
let folder = '';
let standIn: StandIn;
let child: ChildProcess | null = null;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pitward-serve-keys-'));
  standIn = await startStandIn({ nowMs: () => Date.now() });
});
afterAll(async () => {
  child?.kill('SIGKILL');
  await standIn.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A configuration of its own, with a store of its own. */
function configured(name: string, listen: string): { config: string; file: string } {
  const config = join(folder, `${name}.yaml`);
  const file = join(folder, `${name}.db`);
  const yaml = DEMO_YAML.replace('http://127.0.0.1', standIn.baseUrl);
  writeFileSync(config, `${yaml}\nlisten: ${listen}\nstore: { file: ${JSON.stringify(file)} }\n`);
  return { config, file };
}

const key = (config: string, ...words: string[]) => run(['key', ...words, '--config', config], { now });

describe('serve where others can reach it', () => {
  it.each([
    ['every address', '{ host: 0.0.0.0 }'],
    ['every address of IPv6', '{ host: "::" }'],
    ['this machine behind a proxy', '{ trustProxy: [127.0.0.1] }'],
  ])('refuses to start on %s without a key that lives', async (name, listen) => {
    const { config } = configured(name, listen);
    const serve = () => run(['serve', '--config', config, '--port', '0'], { now });
    const refused = { code: 2, out: '', err: expect.stringContaining('pitward key new') };
    expect(await serve()).toEqual(refused);
    const { out } = await key(config, 'new', '--name', 'office');
    await key(config, 'revoke', out.slice(3, 11));
    expect(await serve()).toEqual(refused);
    // Another one has expired by the time of the start.
    expect((await key(config, 'new', '--name', 'office', '--expires', '1d')).code).toBe(0);
    const later = new Date(Date.parse(now) + 2 * 86_400_000).toISOString();
    expect(await run(['serve', '--config', config, '--port', '0'], { now: later })).toEqual(refused);
  });

  it('answers two live keys, none that was revoked, notes their use, and ends with 0', async () => {
    const { config, file } = configured('serving', '{ host: 0.0.0.0 }');
    const { out: old } = await key(config, 'new', '--name', 'office');
    const url = await started(config);
    const ask = async (token: string | null): Promise<number> =>
      (
        await fetch(
          `${url}/v1/sites`,
          token === null ? {} : { headers: { authorization: `Bearer ${token}` } },
        )
      ).status;
    expect([
      await ask(null),
      await ask(`${old.slice(0, -1)}${old.endsWith('A') ? 'Q' : 'A'}`),
      await ask(old),
    ]).toEqual([401, 401, 200]);
    const { out: fresh } = await key(config, 'rotate', old.slice(3, 11));
    // The process follows the store within a second or two.
    await vi.waitFor(async () => expect(await ask(fresh)).toBe(200), { timeout: 20_000, interval: 100 });
    expect(await ask(old)).toBe(200);
    await key(config, 'revoke', old.slice(3, 11));
    await vi.waitFor(async () => expect(await ask(old)).toBe(401), { timeout: 20_000, interval: 100 });
    expect(await ask(fresh)).toBe(200);
    const ended = once(child as ChildProcess, 'exit');
    child?.kill('SIGTERM');
    expect((await ended)[0]).toBe(0);
    await expect(ask(fresh)).rejects.toThrow();
    const store = await openStore({ sqliteFile: file }, { nowMs: Date.now });
    const uses = new Map((await store.keys.all()).map(({ prefix, lastUsedAtMs }) => [prefix, lastUsedAtMs]));
    await store.close();
    for (const text of [old, fresh])
      expect(uses.get(text.slice(3, 11))).toBeGreaterThan(Date.parse(now) - 60_000);
  });
});

/** Starts the program, and gives its address on this machine. */
async function started(config: string): Promise<string> {
  const env = { ...process.env, LOG_LEVEL: 'silent', DATABASE_URL: '' };
  const args = [MAIN, 'serve', '--config', config, '--port', '0'];
  const serving = spawn(process.execPath, args, { env, stdio: ['ignore', 'pipe', 'pipe'] });
  child = serving;
  let err = '';
  serving.stderr.on('data', (data) => {
    err += String(data);
  });
  return new Promise((resolve, reject) => {
    let out = '';
    serving.stdout.on('data', (data) => {
      out += String(data);
      const port = /http:\/\/0\.0\.0\.0:(\d+)/.exec(out)?.[1];
      if (port) resolve(`http://127.0.0.1:${port}`);
    });
    serving.once('exit', (code) => reject(new Error(`ended with ${code}: ${err}`)));
  });
}
