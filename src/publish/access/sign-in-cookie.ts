// The cookie by which a browser shows its key, after a personal link was opened and its button pressed.

import { DAY_MS } from '#core/units/time.ts';

const NAME = 'pitward';
/** Browsers take it over HTTPS alone, from this very host, for all of it: no other host can set it (RFC 6265bis, 4.1.3.2). */
const HOST_NAME = `__Host-${NAME}`;

/** Browsers keep none longer (RFC 6265bis, 5.5). */
const MOST_MS = 400 * DAY_MS;

/** Longer is none of ours, and is not searched. */
const MOST_CHARACTERS = 8192;

export const signInCookieName = (isSecure: boolean): string => (isSecure ? HOST_NAME : NAME);

/**
 * The key in the heads of a request; null where there is none. Over HTTPS only the name that no other host can set counts:
 * whoever could set one would have others act with his key. Twice the same name is none.
 */
export function cookieKey(header: string | undefined, isSecure: boolean): string | null {
  if (header === undefined || header.length > MOST_CHARACTERS) return null;
  const start = `${signInCookieName(isSecure)}=`;
  const found = header.split(';').flatMap((pair) => {
    const text = pair.trim();
    return text.startsWith(start) ? [text.slice(start.length)] : [];
  });
  return found.length === 1 ? (found[0] ?? null) : null;
}

/** Until the key ends, and no longer than browsers keep it. */
export function setCookie(
  key: string,
  { isSecure, nowMs, endsMs }: { isSecure: boolean; nowMs: number; endsMs: number | null },
): string {
  const lastsMs = Math.min(MOST_MS, (endsMs ?? Number.POSITIVE_INFINITY) - nowMs);
  return written(isSecure, key, Math.max(0, Math.floor(lastsMs / 1000)));
}

export const clearCookie = (isSecure: boolean): string => written(isSecure, '', 0);

const written = (isSecure: boolean, value: string, maxAgeS: number): string =>
  `${signInCookieName(isSecure)}=${value}; Max-Age=${maxAgeS}; Path=/; HttpOnly; SameSite=Lax${isSecure ? '; Secure' : ''}`;
