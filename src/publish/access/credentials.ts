// The key that a request presents: as a Bearer token, or as the password of HTTP Basic, which every browser can ask for.

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

/** What a 401 asks for: browsers take Basic, programs Bearer. */
export const CHALLENGES: readonly string[] = [
  'Basic realm="Pitward", charset="UTF-8"',
  'Bearer realm="Pitward"',
];
