// Faults between parts of the configuration, found on what was written, so that they show beside all other faults.

import { brokerFaults } from './broker-faults.ts';
import type { ConfigFault } from './load.ts';
import { listOf, recordOf } from './raw.ts';
import { wayFaults } from './way-faults.ts';

/** Limit sets, brokers and sites that are named but not there, sites or contacts named twice. Tolerates any shape. */
export function crossFaults(raw: unknown): ConfigFault[] {
  const config = recordOf(raw);
  const sets = Object.keys(recordOf(config['limitSets']));
  const sites = listOf(config['sites']).map(recordOf);
  const ids = sites.map((site) => site['id']);
  const faults: ConfigFault[] = [];
  for (const [i, site] of sites.entries()) {
    const { limits, id } = site;
    if (typeof limits === 'string' && !sets.includes(limits)) {
      const message = `no limit set "${limits}"; there are: ${sets.join(', ') || 'none'}`;
      faults.push({ path: `sites[${i}].limits`, message });
    }
    if (id !== undefined && ids.indexOf(id) < i)
      faults.push({ path: `sites[${i}].id`, message: `a second site "${id}"` });
  }
  for (const list of ['orders', 'contacts']) {
    for (const [i, entry] of listOf(config[list]).map(recordOf).entries()) {
      for (const id of listOf(entry['sites'])) {
        if (!ids.includes(id))
          faults.push({ path: `${list}[${i}].sites`, message: `no site "${String(id)}"` });
      }
    }
  }
  const brokers = listOf(config['mqtt']).map((broker) => recordOf(broker)['id']);
  return [
    ...faults,
    ...contactFaults(listOf(config['contacts']).map(recordOf), recordOf(config['channels'])),
    ...sites.flatMap((site, i) =>
      brokerFaults(site, brokers).map(({ path, message }) => ({ path: `sites[${i}].${path}`, message })),
    ),
  ];
}

function contactFaults(
  contacts: readonly Record<string, unknown>[],
  channels: Record<string, unknown>,
): ConfigFault[] {
  const ids = contacts.map(({ id }) => id);
  const twice = ids.flatMap((id, i) =>
    id !== undefined && ids.indexOf(id) < i
      ? [{ path: `contacts[${i}].id`, message: `a second contact "${String(id)}"` }]
      : [],
  );
  const wayless = contacts.flatMap((contact, i) =>
    wayFaults(contact, channels).map(({ path, message }) => ({ path: `contacts[${i}].${path}`, message })),
  );
  return [...twice, ...wayless];
}
