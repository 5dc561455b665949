// Brokers that go and come, that refuse, and that are of another make: logins, TLS and the independent broker of Debian.

import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer as createTcp } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createServer as createTls } from 'node:tls';
import { Aedes } from 'aedes';
import { describe, expect, it } from 'vitest';
import { closeLater, farm, listen, mast, publish, reading, startBroker } from './mqtt-harness.ts';

const SECRET = 'orchard-7-smoke';
const told = (ears: ReturnType<typeof listen>): string =>
  JSON.stringify([ears.states.all, ears.readings.all, ears.log.lines]);

function has(program: string): boolean {
  try {
    execFileSync('which', [program], { stdio: 'ignore' });
    return true;
  } catch {
    console.log(`skipped: no ${program} on this machine`);
    return false;
  }
}

describe('a broker that goes and comes', () => {
  it('is told as down and up, and readings come again without a word of ours', async () => {
    const first = await startBroker();
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${first.port}`)]);
    await ears.up();
    await first.stop();
    const down = await ears.down();
    expect(down).toMatchObject({ up: false, stations: [{ site: 'own/mill-bend', station: 'mast' }] });
    expect(down.why).not.toBeNull();
    await startBroker({}, first.port);
    expect(await ears.up()).toMatchObject({ up: true, why: null });
    await publish(first.port, reading('18:15'));
    expect((await ears.readings.next()).observations).toHaveLength(1);
  });

  it('is tried with more patience each time', async () => {
    const gone = await startBroker();
    await gone.stop();
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${gone.port}`)]);
    for (let i = 0; i < 4; i += 1) expect((await ears.down()).why).toMatch(/ECONNREFUSED/);
    expect(ears.clock.slept.slice(0, 3)).toEqual([1_000, 2_000, 4_000]);
  });

  it('that is none is down', async () => {
    const server = createTcp((socket) => {
      socket.on('error', () => undefined);
      socket.resume().end('HTTP/1.1 400 Bad Request\r\n\r\n');
    });
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    closeLater(() => new Promise((resolve) => server.close(resolve)));
    const { port } = server.address() as { port: number };
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${port}`)]);
    await ears.down();
    await ears.down();
    expect(ears.states.all.some(({ up }) => up)).toBe(false);
  });

  it('that is not configured is down, and nobody is asked', async () => {
    const ears = listen([mast()], []);
    expect(await ears.down()).toMatchObject({ why: 'no such broker is configured' });
    expect(ears.clock.slept).toEqual([]);
  });
});

describe('a login', () => {
  const guarded = () =>
    startBroker({
      authenticate: (_client, username, password, done) =>
        done(null, username === 'pit' && password?.toString() === SECRET),
    });
  const login = { usernameFrom: 'FARM_USER', passwordFrom: 'FARM_PASSWORD' };

  it('is by environment variables', async () => {
    const { port } = await guarded();
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${port}`, login)], {
      FARM_USER: 'pit',
      FARM_PASSWORD: SECRET,
    });
    await ears.up();
    expect(told(ears)).not.toContain(SECRET);
  });

  it('that is refused is down, is tried again, and tells no secret', async () => {
    const { port } = await guarded();
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${port}`, login)], {
      FARM_USER: 'pit',
      FARM_PASSWORD: `${SECRET}-old`,
    });
    expect((await ears.down()).why).toMatch(/refused/i);
    await ears.down();
    expect(told(ears)).not.toContain(SECRET);
  });

  it.each(['usernameFrom', 'passwordFrom', 'certificatesFrom'])(
    '%s that names a variable that is not set is told by the setting alone',
    async (setting) => {
      const slip = { [setting]: SECRET };
      const ears = listen([mast()], [farm('mqtt://127.0.0.1:1', slip)]);
      expect(await ears.down()).toMatchObject({
        why: `the environment variable that ${setting} names is not set`,
      });
      expect(told(ears)).not.toContain(SECRET);
    },
  );
});

describe('a subscription that is refused', () => {
  it('is down, and the other topics are up', async () => {
    const { port } = await startBroker({
      authorizeSubscribe: (_client, subscription, done) =>
        done(null, subscription.topic === 'pits/closed' ? null : subscription),
    });
    const stations = [mast(), mast({ id: 'second', topic: 'pits/closed' })];
    const ears = listen(stations, [farm(`mqtt://127.0.0.1:${port}`)]);
    expect(await ears.up()).toMatchObject({ stations: [{ station: 'mast' }] });
    expect(await ears.down()).toMatchObject({
      why: 'the broker refuses the topic',
      stations: [{ station: 'second' }],
    });
  });
});

describe.skipIf(!has('openssl'))('TLS', () => {
  /** A certificate for localhost that nobody else believes, made now. */
  function certificate() {
    const folder = mkdtempSync(join(tmpdir(), 'pitward-tls-'));
    closeLater(async () => rmSync(folder, { recursive: true, force: true }));
    const [key, cert] = [join(folder, 'key.pem'), join(folder, 'cert.pem')];
    const subject = ['-subj', '/CN=localhost', '-addext', 'subjectAltName=DNS:localhost,IP:127.0.0.1'];
    const made = ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes'];
    execFileSync('openssl', [...made, '-days', '2', '-keyout', key, '-out', cert, ...subject], {
      stdio: 'ignore',
    });
    return { key: readFileSync(key, 'utf8'), cert: readFileSync(cert, 'utf8') };
  }

  async function secured() {
    const { key, cert } = certificate();
    const broker = await Aedes.createBroker();
    const server = createTls({ key, cert }, broker.handle);
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    closeLater(async () => {
      await new Promise<void>((resolve) => broker.close(() => resolve()));
      await new Promise((resolve) => server.close(resolve));
    });
    return { port: (server.address() as { port: number }).port, cert };
  }

  it('is by the certificates that are configured', async () => {
    const { port, cert } = await secured();
    const ears = listen([mast()], [farm(`mqtts://127.0.0.1:${port}`, { certificatesFrom: 'FARM_CA' })], {
      FARM_CA: cert,
    });
    await ears.up();
  });

  it('with one that nobody vouches for is down', async () => {
    const { port } = await secured();
    const ears = listen([mast()], [farm(`mqtts://127.0.0.1:${port}`)]);
    expect((await ears.down()).why).toMatch(/self-signed/);
    expect(ears.states.all.some(({ up }) => up)).toBe(false);
  });
});

describe.skipIf(!has('mosquitto'))('another broker: mosquitto', () => {
  async function freePort(): Promise<number> {
    const server = createTcp();
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    const { port } = server.address() as { port: number };
    await new Promise((resolve) => server.close(resolve));
    return port;
  }

  async function start(port: number) {
    const folder = mkdtempSync(join(tmpdir(), 'pitward-mosquitto-'));
    const file = join(folder, 'mosquitto.conf');
    writeFileSync(file, `listener ${port} 127.0.0.1\nallow_anonymous true\n`);
    const broker = spawn('mosquitto', ['-c', file], { stdio: 'ignore' });
    const exited = once(broker, 'exit');
    const stop = async () => {
      broker.kill('SIGKILL');
      await exited;
      rmSync(folder, { recursive: true, force: true });
    };
    closeLater(stop);
    return { stop };
  }

  it('gives readings, and again after it was killed', async () => {
    const port = await freePort();
    const first = await start(port);
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${port}`)]);
    await ears.up();
    await publish(port, reading('18:15'));
    expect((await ears.readings.next()).observations).toHaveLength(1);
    await first.stop();
    await ears.down();
    await start(port);
    await ears.up();
    await publish(port, reading('18:16'), { retain: true });
    expect((await ears.readings.next()).observations).toHaveLength(1);
  });
});
