// PostgreSQL for tests: the machine's own program on a folder and a loopback port of its own, run as somebody who is not
// root, with its files forced to the disk as in earnest. It ends with the process that started it, however that ends.

import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

export interface PostgresServer {
  readonly port: number;
  /** Address of a database. */
  url(database: string): string;
  /** Process id of the server itself. */
  pid(): number;
  /** Starts again on the same folder and port, after `stop` or after it was killed. */
  start(): Promise<void>;
  /** Breaks off what runs, and waits until it has ended. The folder stays. */
  stop(): Promise<void>;
  /** Waits until it has ended by itself or was killed. */
  ended(): Promise<void>;
  remove(): Promise<void>;
}

/** Folder of the server's programs; null where there are none. */
export function postgresPrograms(): string | null {
  const debian = '/usr/lib/postgresql';
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const folders = [...versions.map((version) => join(debian, version, 'bin')), '/usr/local/bin', '/usr/bin'];
  return folders.find((folder) => ['initdb', 'postgres'].every((p) => existsSync(join(folder, p)))) ?? null;
}

/** PostgreSQL refuses root. */
function unprivileged(): { uid?: number; gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const idOf = (flag: string): number => Number(execFileSync('id', [flag, 'nobody'], { encoding: 'utf8' }));
  return { uid: idOf('-u'), gid: idOf('-g') };
}

export async function startPostgres(): Promise<PostgresServer> {
  const programs = postgresPrograms();
  if (programs === null) throw new Error('there is no PostgreSQL server on this machine');
  const user = unprivileged();
  const folder = mkdtempSync(join(tmpdir(), 'pitward-postgres-'));
  if (user.uid !== undefined && user.gid !== undefined) chownSync(folder, user.uid, user.gid);
  const data = join(folder, 'data');
  // A language's order of letters, not the order of bytes: what leans on the latter shows.
  const order = ['--locale-provider=icu', '--icu-locale=en-US', '--locale=C'];
  const init = ['-D', data, '-U', 'pitward', '-A', 'trust', '-E', 'UTF8', '--no-sync', ...order];
  execFileSync(join(programs, 'initdb'), init, { ...user, cwd: folder, stdio: 'ignore' });
  const port = await freePort();
  const args = ['-D', data, '-p', String(port)];
  const settings = {
    listen_addresses: '127.0.0.1',
    unix_socket_directories: '',
    max_connections: 300,
    shared_buffers: '32MB',
    fsync: 'on',
  };
  for (const [name, value] of Object.entries(settings)) args.push('-c', `${name}=${value}`);
  let running: Running | null = null;
  const server: PostgresServer = {
    port,
    url: (database) => `postgres://pitward@127.0.0.1:${port}/${database}`,
    pid: () => Number(readFileSync(join(data, 'postmaster.pid'), 'utf8').split('\n')[0]),
    async start() {
      running = await run(join(programs, 'postgres'), args, { ...user, cwd: folder });
    },
    async stop() {
      running?.child.stdin?.end();
      await running?.ended;
    },
    ended: async () => running?.ended,
    async remove() {
      await server.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  await server.start();
  return server;
}

interface Running {
  readonly child: ChildProcess;
  readonly ended: Promise<void>;
}

/** A shell between that breaks the server off as soon as this process closes its end of the pipe, or is gone. */
async function run(
  program: string,
  args: readonly string[],
  options: { uid?: number; gid?: number; cwd: string },
): Promise<Running> {
  const script =
    'exec 3<&0; "$0" "$@" </dev/null & server=$!; (read _ <&3; kill -INT $server) & wait $server';
  const child = spawn('/bin/sh', ['-c', script, program, ...args], {
    ...options,
    stdio: ['pipe', 'ignore', 'pipe'],
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const said: string[] = [];
  const ready = new Promise<void>((resolve) => {
    createInterface({ input: child.stderr }).on('line', (line) => {
      said.push(line);
      if (/database system is ready to accept connections/.test(line)) resolve();
    });
  });
  await Promise.race([
    ready,
    ended.then(() => {
      throw new Error(`PostgreSQL did not start:\n${said.join('\n')}`);
    }),
  ]);
  return { child, ended };
}

function freePort(): Promise<number> {
  const server = createServer();
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no port')),
      );
    });
  });
}
