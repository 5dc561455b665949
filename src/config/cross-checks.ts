// Faults between parts of the configuration, found on what was written, so that they show beside all other faults.

import type { ConfigFault } from './load.ts';

/** Limit sets and sites that are named but not there, and sites named twice. Tolerates any shape. */
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
  for (const [i, order] of listOf(config['orders']).map(recordOf).entries()) {
    for (const id of listOf(order['sites'])) {
      if (!ids.includes(id)) faults.push({ path: `orders[${i}].sites`, message: `no site "${String(id)}"` });
    }
  }
  return faults;
}

const recordOf = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {};

const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);
