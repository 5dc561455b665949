// The personal link of a key, or the address of its calendar, for the address at which people reach the service.

import { isLoopback } from '#config/listen.ts';
import { type Arguments, usage } from './arguments.ts';

export interface LinkMaker {
  of(key: string): string;
  /** What whoever sends the link should know. */
  readonly note: string;
}

/** Null where no link is wanted. Throws ServiceError `usage`. */
export function linkMaker(
  { options }: Arguments,
  publicUrl: string | null,
  isCalendar: boolean,
): LinkMaker | null {
  const { link, role, lang } = options;
  // A service below a path has no links; nobody asked for one either.
  const known =
    (role !== undefined || isCalendar) && publicUrl !== null && isPlain(publicUrl) ? publicUrl : null;
  const base = typeof link === 'string' ? link : known;
  if (lang !== undefined && lang !== 'en' && lang !== 'es')
    throw usage(`--lang: expected en or es, found "${lang}"`);
  if (base === null) {
    if (lang !== undefined) throw usage('--lang goes with --link');
    return null;
  }
  const url = baseOf(base);
  const query = lang === undefined ? '' : `?lang=${lang}`;
  const isClear = url.protocol === 'http:' && !isLoopback(url.hostname);
  const clear = isClear ? ' It goes over the network in the clear: use https where others can listen.' : '';
  if (isCalendar)
    return {
      of: (key) => `${url.origin}/v1/calendar/${key}${query}`,
      note: `The address is the key: whoever has it reads the calendar, until the key is revoked.${clear}`,
    };
  return {
    of: (key) => `${url.origin}/sign-in/${key}${query}`,
    note: `The link signs in whoever opens it: send it to that person alone, and revoke the key where a phone is lost.${clear}`,
  };
}

function baseOf(text: string): URL {
  if (isPlain(text)) return new URL(text);
  throw usage('--link: expected the address of the service, such as https://pits.example');
}

/** The pages stand at the root of their host. */
function isPlain(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, pathname, search, hash, username, password } = new URL(text);
  return /^https?:$/.test(protocol) && pathname === '/' && `${search}${hash}${username}${password}` === '';
}
