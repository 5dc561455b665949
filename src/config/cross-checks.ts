// Faults between parts of the configuration, found on what was written, so that they show beside all other faults.

import { CARRIES, type ChannelKind } from '#notify/all.ts';
import { PUBLIC_ONLY } from '#notify/outgoing-url.ts';
import { wayFault } from '#notify/way-fault.ts';
import type { ConfigFault } from './load.ts';

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
  return [
    ...faults,
    ...contactFaults(listOf(config['contacts']).map(recordOf), recordOf(config['channels'])),
    ...brokerFaults(config, sites),
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
  const names = Object.keys(channels);
  const wayless = contacts.flatMap(({ ways }, i) =>
    listOf(ways)
      .map(recordOf)
      .flatMap(({ channel, to }, k) => {
        const path = `contacts[${i}].ways[${k}]`;
        if (typeof channel !== 'string') return [];
        if (!names.includes(channel)) {
          const message = `no channel "${channel}"; there are: ${names.join(', ') || 'none'}`;
          return [{ path: `${path}.channel`, message }];
        }
        const kind = recordOf(channels[channel])['kind'];
        const carries = isKind(kind) ? CARRIES[kind] : null;
        // Addresses of the web are judged with the settings of their channel, when they are used.
        if (typeof to !== 'string' || (carries !== 'sms' && carries !== 'email')) return [];
        const fault = wayFault(carries, to, PUBLIC_ONLY);
        return fault === null ? [] : [{ path: `${path}.to`, message: fault }];
      }),
  );
  return [...twice, ...wayless];
}

function brokerFaults(
  config: Record<string, unknown>,
  sites: readonly Record<string, unknown>[],
): ConfigFault[] {
  const brokers = listOf(config['mqtt']).map((broker) => recordOf(broker)['id']);
  return sites.flatMap((site, i) =>
    listOf(site['stations'])
      .map(recordOf)
      .flatMap(({ kind, broker }, k) =>
        kind !== 'mqtt' || typeof broker !== 'string' || brokers.includes(broker)
          ? []
          : [{ path: `sites[${i}].stations[${k}].broker`, message: `no broker "${broker}" under mqtt` }],
      ),
  );
}

const isKind = (kind: unknown): kind is ChannelKind =>
  typeof kind === 'string' && Object.hasOwn(CARRIES, kind);

const recordOf = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {};

const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);
