// What a definition that comes through the API names must be there, and what it makes us connect to is the operator's word.

import type { AddressInfo } from 'node:net';
import { createServer, type Server } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startWatchedDemo, type WatchedDemo } from './watch/watched-demo.ts';

let demo: WatchedDemo;
let instrument: Server;
let calls = 0;
beforeAll(async () => {
  instrument = createServer((socket) => {
    calls += 1;
    socket.destroy();
  });
  await new Promise<void>((resolve) => {
    instrument.listen(0, '127.0.0.1', resolve);
  });
  const { port } = instrument.address() as AddressInfo;
  const station = `      - { id: logger, kind: nmea, host: localhost, port: ${port}, mount: 0 }\n`;
  demo = await startWatchedDemo(
    '2026-04-14T17:00:00Z',
    (yaml) =>
      `${yaml.replace(/(pit 1[\s\S]*?stations:\n)/, `$1${station}`)}
stationHosts: [10.20.0.0/16]
mqtt: [{ id: farm, url: "mqtt://127.0.0.1:1" }]
`,
  );
});
afterAll(async () => {
  await demo.close();
  await new Promise((resolve) => instrument.close(resolve));
});

const site = (id: string, ...stations: object[]) => ({
  id,
  name: `Site ${id}`,
  at: [36.438, -120.231],
  timeZone: 'America/Los_Angeles',
  limits: 'valley',
  shift: { days: ['mon'], from: '07:00', to: '17:00' },
  stations,
});
const nmea = (host: string, port = 10110) => ({ id: 'logger', kind: 'nmea', host, port, mount: 0 });
const contact = (ways: object[]) => ({ id: 'cai', name: 'Cai', role: 'crew', ways });

const faultsOf = async (method: 'POST' | 'PUT', url: string, payload: object, revision?: string) => {
  const response = await demo.service.app.inject({
    method,
    url,
    payload,
    headers: revision === undefined ? {} : { 'if-match': revision },
  });
  const body = response.json() as { faults?: { path: string; message: string }[] };
  return response.statusCode < 300 ? response.statusCode : body.faults;
};

const revisionOf = async (url: string): Promise<string> =>
  String((await demo.service.app.inject({ url })).headers['etag']);

describe('a contact that comes through the API', () => {
  it.each([
    [
      'a channel that is not there',
      [{ channel: 'pager', to: '+15550100009' }],
      { path: 'ways[0].channel', message: 'no channel "pager"; there are: text' },
    ],
    [
      'a mail address for a channel that carries texts',
      [
        { channel: 'text', to: '+15550100009' },
        { channel: 'text', to: 'cai@office.example' },
      ],
      { path: 'ways[1].to', message: 'not a number with + and the country code' },
    ],
  ])('with %s is refused, with the path', async (_, ways, fault) => {
    expect(await faultsOf('POST', '/v1/contacts', contact(ways))).toEqual([fault]);
    expect(
      await faultsOf(
        'PUT',
        '/v1/contacts/ana',
        { ...contact(ways), id: 'ana' },
        await revisionOf('/v1/contacts/ana'),
      ),
    ).toEqual([fault]);
  });

  it('with channels and sites that are there is taken, and another that names a site that is not is refused', async () => {
    const good = contact([{ channel: 'text', to: '+15550100009' }]);
    expect(await faultsOf('POST', '/v1/contacts', { ...good, sites: ['nowhere'] })).toEqual([
      { path: 'sites[0]', message: 'no site "nowhere"' },
    ]);
    expect(await faultsOf('POST', '/v1/contacts', good)).toBe(201);
  });
});

describe('a site that comes through the API', () => {
  it('with a broker that is not there is refused, with the path; all faults at once', async () => {
    const topic = (broker: string) => ({
      id: `on-${broker}`,
      kind: 'mqtt',
      broker,
      topic: 'a/b',
      reference: 'true',
    });
    expect(
      await faultsOf('POST', '/v1/sites', site('far', topic('farm'), topic('other'), nmea('127.0.0.1'))),
    ).toEqual([
      { path: 'stations[1].broker', message: 'no broker "other" under mqtt' },
      {
        path: 'stations[2].host',
        message: 'expected the address of an instrument: those may be within 10.20.0.0/16',
      },
    ]);
    expect(await faultsOf('POST', '/v1/sites', site('near', topic('farm'), nmea('10.20.0.5')))).toBe(201);
  });

  it('makes us connect nowhere that the configuration does not name', async () => {
    const { port } = instrument.address() as AddressInfo;
    demo.service.watching.start();
    // The file's own host is called, by its name.
    await expect.poll(() => calls, { timeout: 5000 }).toBeGreaterThan(0);
    for (const host of ['127.0.0.1', 'localhost', '2130706433', '169.254.169.254']) {
      const faults = await faultsOf('POST', '/v1/sites', site('probe', nmea(host, port)));
      expect([host, faults]).toEqual([host, [{ path: 'stations[0].host', message: expect.any(String) }]]);
    }
    expect((await demo.service.app.inject({ url: '/v1/sites/probe' })).statusCode).toBe(404);
  });

  it('keeps the host that the file gave it, and takes no other in its place', async () => {
    const url = '/v1/sites/north-block';
    const read = await demo.service.app.inject({ url: `${url}/definition` });
    const { body } = read.json() as { body: { stations: { id: string; port: number }[] } };
    const etag = () => revisionOf(`${url}/definition`);
    expect(await faultsOf('PUT', url, { ...body, name: 'North block, renamed' }, await etag())).toBe(200);
    const moved = body.stations.map((s) => (s.id === 'logger' ? { ...s, port: 22 } : s));
    expect(await faultsOf('PUT', url, { ...body, stations: moved }, await etag())).toEqual([
      { path: 'stations[0].host', message: expect.stringContaining('10.20.0.0/16') },
    ]);
  });
});
