// The key that a request presents: as a Bearer token, or as the password of HTTP Basic.

/** Longer is no key of ours and is not even decoded. */
const MOST_CHARACTERS = 512;

/** RFC 6750, 2.1 and RFC 7617, 2: the user name of Basic does not count. Null where no key is presented. */
export function presentedKey(authorization: string | undefined): string | null {
  if (authorization === undefined || authorization.length > MOST_CHARACTERS) return null;
  const [, scheme = '', rest = ''] = /^([A-Za-z]+) +(\S+) *$/.exec(authorization) ?? [];
  if (/^bearer$/i.test(scheme)) return rest;
  if (!/^basic$/i.test(scheme)) return null;
  const pair = Buffer.from(rest, 'base64').toString('utf8');
  const colon = pair.indexOf(':');
  return colon < 0 ? null : pair.slice(colon + 1);
}

/** What a 401 asks a browser for: none opens a box of its own for it. */
export const CHALLENGE_WITHOUT_BOX = 'Bearer realm="Pitward"';

/** What a 401 asks programs for. */
export const CHALLENGES: readonly string[] = [
  'Basic realm="Pitward", charset="UTF-8"',
  CHALLENGE_WITHOUT_BOX,
];
