// pitward key: makes, lists, ends and renews the keys by which others may ask. A key is shown once, when it is made.

import { loadConfig } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import { isLocalDate, rfc3339, startOfDayMs } from '#core/units/local-time.ts';
import { DAY_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import { keyState } from '#publish/access/key-life.ts';
import { mintKey } from '#publish/access/mint-key.ts';
import { ROLES, roleOf, scopesOf as roleScopes } from '#publish/access/roles.ts';
import { type ApiKey, isForCalendars, SCOPES, type Scope } from '#store/api-key.ts';
import type { Store } from '#store/store.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { openKept } from './kept.ts';
import { linkMaker } from './personal-link.ts';
import { EXIT, type Terminal } from './terminal.ts';

interface KeyWork {
  readonly args: Arguments;
  readonly terminal: Terminal;
  readonly store: Store;
  readonly config: Config;
}

const WORK: Readonly<Record<string, (work: KeyWork) => Promise<void>>> = {
  new: newKey,
  list: listKeys,
  revoke: revokeKey,
  rotate: rotateKey,
};

export async function key(args: Arguments, terminal: Terminal): Promise<number> {
  const [word = ''] = args.words;
  const work = Object.hasOwn(WORK, word) ? WORK[word] : undefined;
  if (!work) throw usage(`expected key new, list, revoke or rotate, found "${word}"`);
  const config = loadConfig(configFileOf(args, terminal));
  // What writes may bring the tables up; a list may not.
  const { store } = await openKept(args, config, terminal, { shared: true, asFound: word === 'list' });
  try {
    await work({ args, terminal, store, config });
    return EXIT.done;
  } finally {
    await store.close();
  }
}

async function newKey({ args, terminal, store, config }: KeyWork): Promise<void> {
  const { name, sites, expires, organisation } = args.options;
  if (typeof name !== 'string' || name.trim() === '') throw usage('expected --name, who will use the key');
  const wish = {
    name: name.trim(),
    organisation: typeof organisation === 'string' ? organisation : config.organisation,
    sites: typeof sites === 'string' ? listOf(sites) : null,
    scopes: scopesOf(args.options),
    expiresAtMs: typeof expires === 'string' ? endMs('expires', expires, terminal.nowMs()) : null,
  };
  await addKey({ args, terminal, store, config }, wish);
}

async function addKey(
  { args, terminal, store, config }: KeyWork,
  wish: Parameters<typeof mintKey>[0],
  replaces: { readonly old: ApiKey; readonly endsMs: number } | null = null,
): Promise<void> {
  const nowMs = terminal.nowMs();
  // What is wrong with the address is said before there is a key.
  const linkTo = linkMaker(args, config.listen.publicUrl ?? null, isForCalendars(wish.scopes));
  const { text, key: made } = mintKey(wish, nowMs);
  const audit = auditOf('key-made', made, nowMs);
  if (replaces === null) await store.keys.add(made, audit);
  else {
    const { old, endsMs } = replaces;
    await store.keys.replace(made, { prefix: old.prefix, endsMs }, [audit, auditOf('key-ends', old, nowMs)]);
  }
  terminal.err(
    `Key ${made.prefix} for ${made.name}: ${toldOf(made, nowMs)}. It is shown this once; keep it safe.`,
  );
  const link = linkTo === null ? null : linkTo.of(text);
  if (linkTo) terminal.err(linkTo.note);
  if (args.options.json === true) {
    const shown = { key: text, ...(link === null ? {} : { link }), ...shownOf(made, nowMs) };
    return terminal.out(JSON.stringify(shown, null, 2));
  }
  terminal.out(text);
  if (link !== null) terminal.out(link);
}

async function listKeys({ args, terminal, store }: KeyWork): Promise<void> {
  const nowMs = terminal.nowMs();
  const keys = await store.keys.all();
  if (args.options.json) {
    terminal.out(
      JSON.stringify(
        keys.map((k) => shownOf(k, nowMs)),
        null,
        2,
      ),
    );
    return;
  }
  if (keys.length === 0) terminal.err('No key yet.');
  for (const k of keys) terminal.out(`${k.prefix}  ${k.name}: ${toldOf(k, nowMs)}`);
}

async function revokeKey({ args, terminal, store }: KeyWork): Promise<void> {
  const found = await keyNamed(store, args);
  const nowMs = terminal.nowMs();
  const ended = await store.keys.revoke(found.prefix, nowMs, auditOf('key-revoked', found, nowMs));
  if (ended === null || keyState(ended, nowMs) === 'live')
    throw new ServiceError('internal', `key ${found.prefix} is still live`);
  terminal.err(`Key ${found.prefix} for ${found.name} is revoked; services follow within seconds.`);
}

/** A second key with the same rights; the first lives on for a while, so that nothing breaks on the way. */
async function rotateKey(work: KeyWork): Promise<void> {
  const { args, terminal, store } = work;
  const found = await keyNamed(store, args);
  const nowMs = terminal.nowMs();
  if (keyState(found, nowMs) !== 'live') throw usage(`key ${found.prefix} has ended; make a new one`);
  const endsMs = endMs('ends', typeof args.options.ends === 'string' ? args.options.ends : '7d', nowMs);
  const { name, organisation, sites, scopes, expiresAtMs } = found;
  const wish = { name, organisation, sites, scopes, expiresAtMs };
  await addKey(work, wish, { old: found, endsMs });
  terminal.err(`Key ${found.prefix} ends on ${rfc3339(endsMs, 'UTC')}.`);
}

async function keyNamed(store: Store, { words }: Arguments): Promise<ApiKey> {
  const [, prefix, ...more] = words;
  if (prefix === undefined || more.length > 0)
    throw usage('expected the prefix of one key, as "key list" shows it');
  const found = (await store.keys.all()).find((k) => k.prefix === prefix);
  if (found) return found;
  throw usage(`no key "${prefix}"`);
}

function scopesOf({ role, scopes, calendar }: Arguments['options']): readonly Scope[] {
  if (calendar === true) {
    if (role === undefined && scopes === undefined) return ['calendar'];
    throw usage('a key of --calendar is good for nothing else: expected neither --role nor --scopes');
  }
  if (typeof role === 'string') {
    if (scopes !== undefined) throw usage('expected either --role or --scopes, not both');
    const known = ROLES.find((each) => each === role);
    if (!known) throw usage(`--role: expected ${ROLES.join(', ')}, found "${role}"`);
    return roleScopes(known);
  }
  const words = listOf(typeof scopes === 'string' ? scopes : 'read');
  const unknown = words.find((word) => !SCOPES.some((scope) => scope === word));
  if (unknown !== undefined) throw usage(`--scopes: expected ${SCOPES.join(', ')}, found "${unknown}"`);
  return SCOPES.filter((scope) => words.includes(scope));
}

const listOf = (text: string): string[] =>
  text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');

/** `90d` from now, or the beginning of a date in UTC. */
function endMs(option: string, text: string, nowMs: number): number {
  const days = /^(\d{1,4})d$/.exec(text)?.[1];
  const ms = days ? nowMs + Number(days) * DAY_MS : dateMs(text);
  if (ms === null || ms <= nowMs) {
    throw usage(
      `--${option}: expected a date to come, such as 2027-01-31, or days, such as 90d, found "${text}"`,
    );
  }
  return ms;
}

const dateMs = (text: string): number | null => (isLocalDate(text) ? startOfDayMs(text, 'UTC') : null);

const auditOf = (what: string, { organisation, prefix, name, scopes }: ApiKey, atMs: number) => ({
  atMs,
  organisation,
  who: 'command line',
  what,
  subject: prefix,
  detail: { name, scopes },
});

/** Everything but the digest. */
function shownOf(
  { digest: _, createdAtMs, expiresAtMs, lastUsedAtMs, revokedAtMs, ...k }: ApiKey,
  nowMs: number,
) {
  const at = (ms: number | null) => (ms === null ? null : rfc3339(ms, 'UTC'));
  return {
    ...k,
    role: roleOf(k.scopes),
    state: keyState({ ...k, digest: '', createdAtMs, expiresAtMs, lastUsedAtMs, revokedAtMs }, nowMs),
    createdAt: at(createdAtMs),
    expiresAt: at(expiresAtMs),
    lastUsedAt: at(lastUsedAtMs),
    revokedAt: at(revokedAtMs),
  };
}

function toldOf(k: ApiKey, nowMs: number): string {
  const { state, role, expiresAt, lastUsedAt } = shownOf(k, nowMs);
  const sites = k.sites === null ? 'all sites' : `sites ${k.sites.join(', ')}`;
  const end = expiresAt === null ? 'no end' : `until ${expiresAt}`;
  const used = lastUsedAt === null ? 'never used' : `last used ${lastUsedAt}`;
  const may = role === null || role === 'admin' ? k.scopes.join(' + ') : `${role} (${k.scopes.join(' + ')})`;
  return `${state}, ${may}, ${k.organisation}, ${sites}, ${end}, ${used}`;
}
