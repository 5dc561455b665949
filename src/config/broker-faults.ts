// Stations of a site held against the brokers that there are, on what was written.

import type { ConfigFault } from './load.ts';
import { listOf, recordOf } from './raw.ts';

/** Paths from the site on. Tolerates any shape. */
export const brokerFaults = (site: unknown, brokers: readonly unknown[]): ConfigFault[] =>
  listOf(recordOf(site)['stations'])
    .map(recordOf)
    .flatMap(({ kind, broker }, k) =>
      kind !== 'mqtt' || typeof broker !== 'string' || brokers.includes(broker)
        ? []
        : [{ path: `stations[${k}].broker`, message: `no broker "${broker}" under mqtt` }],
    );
