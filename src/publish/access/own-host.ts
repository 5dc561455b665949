// Where no key is asked for, the Host of a request must be this machine: a page elsewhere could else have its name lead
// here and read, as the same origin, what only the one at this machine may read.

const LOOPBACK = /^(localhost|127(?:\.\d{1,3}){3}|\[::1\])(?::\d{1,5})?$/i;

/** True for `localhost`, `127.0.0.0/8`, `[::1]` and the names given, each with or without a port. */
export function isOwnHost(host: string | undefined, names: readonly string[]): boolean {
  if (host === undefined) return false;
  if (LOOPBACK.test(host)) return true;
  const bare = host.replace(/:\d{1,5}$/, '').toLowerCase();
  return names.some((name) => name.toLowerCase() === bare);
}
