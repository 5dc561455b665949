// Ways of a contact held against the channels that there are, on what was written.

import { CARRIES, type ChannelKind } from '#notify/all.ts';
import { PUBLIC_ONLY } from '#notify/outgoing-url.ts';
import { wayFault } from '#notify/way-fault.ts';
import type { ConfigFault } from './load.ts';
import { listOf, recordOf } from './raw.ts';

/** Paths from the contact on. Tolerates any shape. */
export function wayFaults(contact: unknown, channels: Readonly<Record<string, unknown>>): ConfigFault[] {
  const names = Object.keys(channels);
  return listOf(recordOf(contact)['ways'])
    .map(recordOf)
    .flatMap(({ channel, to }, k) => {
      if (typeof channel !== 'string') return [];
      if (!names.includes(channel)) {
        const message = `no channel "${channel}"; there are: ${names.join(', ') || 'none'}`;
        return [{ path: `ways[${k}].channel`, message }];
      }
      const kind = recordOf(channels[channel])['kind'];
      const carries = isKind(kind) ? CARRIES[kind] : null;
      // Addresses of the web are judged with the settings of their channel, when they are used.
      if (typeof to !== 'string' || (carries !== 'sms' && carries !== 'email')) return [];
      const fault = wayFault(carries, to, PUBLIC_ONLY);
      return fault === null ? [] : [{ path: `ways[${k}].to`, message: fault }];
    });
}

const isKind = (kind: unknown): kind is ChannelKind =>
  typeof kind === 'string' && Object.hasOwn(CARRIES, kind);
