// Who asks, by the heads of the request alone.

import type { IncomingHttpHeaders } from 'node:http';
import { ServiceError } from '#errors.ts';
import { thisMachine, type Viewer } from '#publish/viewer.ts';
import { presentedKey } from './credentials.ts';
import type { KeyRing } from './key-ring.ts';
import { isOwnHost } from './own-host.ts';
import { viewerOfKey } from './viewer-of-key.ts';

/** Open: bound to this machine alone, without keys. */
export type Access =
  | { readonly kind: 'open'; readonly hosts: readonly string[] }
  | { readonly kind: 'keys'; readonly ring: KeyRing; used(prefix: string, nowMs: number): void };

export interface Caller {
  readonly viewer: Viewer | null;
  /** Prefix of a key that is good; null: none was presented, or none is asked for. */
  readonly prefix: string | null;
  /** Why only what is open to everybody may be answered; null: see the viewer's scopes. */
  readonly refusal: 'misdirected' | 'passed-on' | 'unknown-key' | 'no-key' | null;
}

export type Heads = IncomingHttpHeaders;

/** What a proxy adds (RFC 7239, RFC 9110 7.6.3, and the older ones): whoever asks through one is not at this machine. */
const PASSED_ON = [
  'forwarded',
  'x-forwarded-for',
  'x-forwarded-host',
  'x-forwarded-proto',
  'x-real-ip',
  'via',
];

export function createCallers(access: Access, organisation: string): (heads: Heads, nowMs: number) => Caller {
  if (access.kind === 'keys') return ({ authorization }, nowMs) => byKey(access.ring, authorization, nowMs);
  const viewer = thisMachine(organisation);
  const here: Caller = { viewer, prefix: null, refusal: null };
  const elsewhere: Caller = { viewer: null, prefix: null, refusal: 'misdirected' };
  const passedOn: Caller = { viewer: null, prefix: null, refusal: 'passed-on' };
  return (heads) => {
    if (!isOwnHost(heads.host, access.hosts)) return elsewhere;
    return PASSED_ON.some((name) => heads[name] !== undefined) ? passedOn : here;
  };
}

function byKey(ring: KeyRing, authorization: string | undefined, nowMs: number): Caller {
  const token = presentedKey(authorization);
  if (token === null) return { viewer: null, prefix: null, refusal: 'no-key' };
  const key = ring.find(token, nowMs);
  if (key === null) return { viewer: null, prefix: null, refusal: 'unknown-key' };
  return { viewer: viewerOfKey(key), prefix: key.prefix, refusal: null };
}

/** ServiceError `misdirected`, `unauthorized`. */
export function refused(refusal: NonNullable<Caller['refusal']>): ServiceError {
  if (refusal === 'misdirected')
    return new ServiceError('misdirected', 'this service answers to the names of this machine only');
  if (refusal === 'passed-on')
    return new ServiceError(
      'misdirected',
      'this came through a proxy: name it in listen.trustProxy, and keys will be asked for',
    );
  return new ServiceError(
    'unauthorized',
    refusal === 'unknown-key'
      ? 'the key is not known, has expired or was revoked'
      : 'a key is needed: "Authorization: Bearer pw_…", or HTTP Basic with the key as password',
  );
}
