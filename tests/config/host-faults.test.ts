// Hosts of instruments that come through the API. The writings of addresses are those by which guards are fooled: OWASP,
// Server-Side Request Forgery Prevention Cheat Sheet (other notations of IPv4, IPv4-mapped IPv6, names that lead inside).

import { describe, expect, it } from 'vitest';
import { hostFaults } from '#config/host-faults.ts';

const site = (...hosts: readonly unknown[]) => ({
  stations: hosts.map((host, i) => ({ id: `s${i}`, kind: 'nmea', host, port: 10110 })),
});
const paths = (body: unknown, allowed: readonly string[], before: unknown = null) =>
  hostFaults(body, before, allowed).map(({ path }) => path);

const LAN = ['10.20.0.0/16', 'fd00:7::/32'];

describe('a host that is named through the API', () => {
  it.each(['10.20.0.5', '10.20.255.254', 'fd00:7::5'])('%s is within the ranges', (host) => {
    expect(paths(site(host), LAN)).toEqual([]);
  });

  it.each([
    '10.21.0.5',
    '127.0.0.1',
    '169.254.169.254',
    '192.0.2.1',
    'localhost',
    'logger.example',
    '10.20.0.5.example',
    '2130706433',
    '0x0a.0x14.0.5',
    '10.20.5',
    '012.20.0.5',
    '::ffff:10.20.0.5',
    'fd00:8::5',
    'fd00:7::5%eth0',
    '10.20.0.5:22',
    '[fd00:7::5]',
    '',
  ])('%s is not', (host) => {
    expect(paths(site(host), LAN)).toEqual(['stations[0].host']);
  });

  it('is none at all where nothing is said', () => {
    expect(paths(site('10.20.0.5', '127.0.0.1'), [])).toEqual(['stations[0].host', 'stations[1].host']);
    expect(hostFaults(site('10.20.0.5'), null, [])[0]?.message).toContain('none may be named here');
    expect(hostFaults(site('10.9.0.5'), null, LAN)[0]?.message).toContain('10.20.0.0/16, fd00:7::/32');
  });

  it('stays where it was before, with the same port', () => {
    const before = site('logger.example');
    expect(paths(site('logger.example'), [], before)).toEqual([]);
    expect(paths({ stations: [{ kind: 'nmea', host: 'logger.example', port: 22 }] }, [], before)).toEqual([
      'stations[0].host',
    ]);
    expect(paths(site('logger.example', 'other.example'), [], before)).toEqual(['stations[1].host']);
  });

  it('no range opens what is no single machine', () => {
    expect(paths(site('0.0.0.0'), ['0.0.0.0'])).toEqual(['stations[0].host']);
    expect(paths(site('224.0.0.5'), ['224.0.0.0/8'])).toEqual(['stations[0].host']);
  });

  it.each([null, 7, 'text', [], { stations: 7 }, { stations: [7, null, { kind: 'nmea', host: 7 }] }])(
    'of a body of another shape (%o) says nothing',
    (body) => {
      expect(paths(body, LAN)).toEqual([]);
    },
  );

  it('of another kind of station is none', () => {
    expect(paths({ stations: [{ kind: 'posted', host: '127.0.0.1' }] }, [])).toEqual([]);
  });
});
