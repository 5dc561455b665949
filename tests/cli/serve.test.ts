import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { afterEach, expect, it } from 'vitest';
import { DEMO_YAML } from '../service/running.ts';
import { useFiles } from './use-files.ts';

const MAIN = fileURLToPath(new URL('../../src/main.mjs', import.meta.url));
const started: ChildProcess[] = [];
const { file } = useFiles();

/** Starts the program as a user does, and waits for the address that it prints. */
async function serve(args: readonly string[], environment: Record<string, string> = {}) {
  const env = { ...process.env, LOG_LEVEL: 'silent', ...environment };
  const child = spawn(process.execPath, [MAIN, 'serve', ...args], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  started.push(child);
  const said = { out: '', err: '' };
  child.stderr.on('data', (data) => {
    said.err += String(data);
  });
  const url = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (data) => {
      said.out += String(data);
      const found = /http:\/\/127\.0\.0\.1:(\d+)/.exec(said.out)?.[0];
      if (found) resolve(found);
    });
    child.once('exit', (code) => reject(new Error(`ended with ${code}: ${said.err}`)));
  });
  return { child, url, said };
}

afterEach(async () => {
  for (const child of started.splice(0)) {
    if (child.exitCode !== null) continue;
    const ended = once(child, 'exit');
    child.kill('SIGTERM');
    await ended;
  }
});

it('serves the demo, says DEMO and its address, and ends with 0 when told to', async () => {
  const { child, url, said } = await serve(['--demo', '--port', '0']);
  expect(said.out).toContain('DEMO');
  expect(said.err).toBe('');
  expect((await fetch(`${url}/healthz`)).status).toBe(200);
  const ended = once(child, 'exit');
  child.kill('SIGTERM');
  expect((await ended)[0]).toBe(0);
});

it('says that a port is busy and takes the next free one, also by PORT', async () => {
  const blocker = createServer().listen(0, '127.0.0.1');
  await once(blocker, 'listening');
  const address = blocker.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const { url, said } = await serve(['--demo'], { PORT: String(port) });
  expect(Number(new URL(url).port)).toBeGreaterThan(port);
  expect(said.err).toContain(`Port ${port} is busy`);
  blocker.close();
});

it('ends where the port of a live service is busy: others would look for it there', async () => {
  const blocker = createServer().listen(0, '127.0.0.1');
  await once(blocker, 'listening');
  const address = blocker.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  // Nobody listens at the port of the source: it is not asked for anything that matters here.
  const config = file(
    'live.yaml',
    DEMO_YAML.replace('baseUrl: http://127.0.0.1', 'baseUrl: http://127.0.0.1:9'),
  );
  const args = [MAIN, 'serve', '--config', config, '--port', String(port)];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'pipe'] });
  started.push(child);
  let err = '';
  child.stderr.on('data', (data) => {
    err += String(data);
  });
  const [code] = await once(child, 'exit');
  expect([code, err.trim().split('\n').at(-1)]).toEqual([
    1,
    `port ${port} is busy; --port or PORT names another`,
  ]);
  expect(err).toMatch(/^Warning: contact: /);
  blocker.close();
});

it('refuses to serve a faulty configuration, with every fault', async () => {
  const child = spawn(process.execPath, [MAIN, 'serve', '--config', 'no-such-file.yaml'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  started.push(child);
  let err = '';
  child.stderr.on('data', (data) => {
    err += String(data);
  });
  const [code] = await once(child, 'exit');
  expect(code).toBe(1);
  expect(err).toMatch(/cannot read .*no-such-file\.yaml: no such file/);
  expect(err).not.toContain('    at ');
});
