// Who asks, by the heads of the request alone.

import type { IncomingHttpHeaders } from 'node:http';
import { ServiceError } from '#errors.ts';
import { thisMachine, type Viewer } from '#publish/viewer.ts';
import { presentedKey } from './credentials.ts';
import type { KeyRing } from './key-ring.ts';
import { isOwnHost } from './own-host.ts';
import { cookieKey } from './sign-in-cookie.ts';
import { viewerOfKey } from './viewer-of-key.ts';

/** Open: bound to this machine alone, without keys. */
export type Access =
  | { readonly kind: 'open'; readonly hosts: readonly string[] }
  | { readonly kind: 'keys'; readonly ring: KeyRing; used(prefix: string, nowMs: number): void };

export interface Caller {
  readonly viewer: Viewer | null;
  /** Prefix of a key that is good; null: none was presented, or none is asked for. */
  readonly prefix: string | null;
  /** The key came in the cookie, which a browser sends whoever sets the request going. */
  readonly byCookie: boolean;
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

/** `isSecure`: the request came by HTTPS, here or to a proxy that is trusted. */
export type CallerOf = (heads: Heads, nowMs: number, isSecure: boolean) => Caller;

export function createCallers(access: Access, organisation: string): CallerOf {
  if (access.kind === 'keys') return (heads, nowMs, isSecure) => byKey(access.ring, heads, nowMs, isSecure);
  const viewer = thisMachine(organisation);
  const here: Caller = { viewer, prefix: null, byCookie: false, refusal: null };
  const elsewhere: Caller = { viewer: null, prefix: null, byCookie: false, refusal: 'misdirected' };
  const passedOn: Caller = { viewer: null, prefix: null, byCookie: false, refusal: 'passed-on' };
  return (heads) => {
    if (!isOwnHost(heads.host, access.hosts)) return elsewhere;
    return PASSED_ON.some((name) => heads[name] !== undefined) ? passedOn : here;
  };
}

/** A key in the Authorization counts alone: the cookie is for requests that show none. */
function byKey(ring: KeyRing, { authorization, cookie }: Heads, nowMs: number, isSecure: boolean): Caller {
  const shown = presentedKey(authorization);
  const token = shown ?? cookieKey(cookie, isSecure);
  const byCookie = shown === null && token !== null;
  if (token === null) return { viewer: null, prefix: null, byCookie, refusal: 'no-key' };
  const key = ring.find(token, nowMs);
  if (key === null) return { viewer: null, prefix: null, byCookie, refusal: 'unknown-key' };
  return { viewer: viewerOfKey(key), prefix: key.prefix, byCookie, refusal: null };
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
