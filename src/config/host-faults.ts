// Hosts of instruments that somebody names through the API: nobody may make this program knock at doors that only it can
// reach. What the configuration file names is the operator's own word.

import { isAddressWithin } from '#notify/outgoing-url.ts';
import type { ConfigFault } from './load.ts';
import { listOf, recordOf } from './raw.ts';

/**
 * Paths from the site on. `allowed`: ranges of addresses that may be named; a name could lead anywhere, and elsewhere a second
 * later. `before`: the same site as it was, whose hosts stay. Tolerates any shape.
 */
export function hostFaults(site: unknown, before: unknown, allowed: readonly string[]): ConfigFault[] {
  const known = new Set(endpoints(before).map(({ endpoint }) => endpoint));
  const where = allowed.length === 0 ? 'none may be named here' : `those may be within ${allowed.join(', ')}`;
  return endpoints(site).flatMap(({ host, endpoint, k }) =>
    known.has(endpoint) || isAddressWithin(host, allowed)
      ? []
      : [{ path: `stations[${k}].host`, message: `expected the address of an instrument: ${where}` }],
  );
}

interface Endpoint {
  readonly host: string;
  readonly endpoint: string;
  readonly k: number;
}

const endpoints = (site: unknown): Endpoint[] =>
  listOf(recordOf(site)['stations'])
    .map(recordOf)
    .flatMap(({ kind, host, port }, k) =>
      kind === 'nmea' && typeof host === 'string' ? [{ host, endpoint: `${host} ${String(port)}`, k }] : [],
    );
