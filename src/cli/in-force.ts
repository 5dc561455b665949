// What a site is judged by: what the store has in force where there is one, since the service goes by that; else the file.

import { basename } from 'node:path';
import { partsOf, type SiteParts } from '#config/build-site.ts';
import type { ReadConfig } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import type { SiteFields } from '#config/sites.ts';
import { ServiceError } from '#errors.ts';
import { EMPTY_BOOK, organisationOf, readBook } from '#memory/definition-book.ts';
import { planImport } from '#service/import-config.ts';
import { readWhatIf } from '#service/read-what-if.ts';
import type { Store } from '#store/store.ts';
import type { Arguments } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { isStoreThere } from './is-store-there.ts';
import { storeAddress } from './store-address.ts';
import type { Terminal } from './terminal.ts';

export interface InForce {
  /** By id. */
  readonly sites: ReadonlyMap<string, SiteParts>;
  /** Sites that cannot be judged, and why: id → sentence. */
  readonly broken: ReadonlyMap<string, string>;
  readonly limitSets: readonly string[];
  /** A place that is none of the sites, with the orders that name no site. Null where its limit set is not there. */
  at(fields: SiteFields): SiteParts | null;
  /** What the service remembers of the alerts of a place, by its key; null for nothing. */
  alertsBefore(placeKey: string): Promise<unknown>;
  close(): Promise<void>;
}

/** Throws ServiceError `store_…` where a store is there and cannot be read, `config_invalid` where it is another's. */
export async function inForce(args: Arguments, read: ReadConfig, terminal: Terminal): Promise<InForce> {
  const address = args.options.demo ? null : storeAddress(args, terminal, read.config);
  if (address === null || !isStoreThere(address)) return inFile(read.config);
  // Without a store the databases' programs are not needed.
  const { openKept } = await import('./kept.ts');
  const { store } = await openKept(args, read.config, terminal, { shared: true, asFound: true });
  try {
    const found = await inStore(store, read.config);
    if (found === null) {
      await store.close();
      return inFile(read.config);
    }
    if (await isFileNewer(store, read, basename(configFileOf(args, terminal)), terminal.nowMs()))
      terminal.err(
        'The configuration file differs from what the service has, and was not imported: the service goes by what it has, and so does this ("pitward check-config" shows the difference).',
      );
    return found;
  } catch (fault) {
    await store.close();
    throw fault;
  }
}

const inFile = (config: Config): InForce => ({
  sites: new Map(
    config.sites.flatMap((fields) => {
      const parts = partsOf(config, fields);
      return parts === null ? [] : [[fields.id, parts] as const];
    }),
  ),
  broken: new Map(),
  limitSets: Object.keys(config.limitSets),
  at: (fields) => partsOf(config, fields),
  alertsBefore: async () => null,
  close: async () => undefined,
});

/** Null where nothing was ever defined, as before the first start of the service. */
async function inStore(store: Store, { organisation }: Config): Promise<InForce | null> {
  const rows = await store.definitions.current();
  if (rows.length === 0) return null;
  const own = rows.filter((row) => row.organisation === organisation);
  if (own.length === 0)
    throw new ServiceError(
      'config_invalid',
      `the store knows other organisations, and nothing of "${organisation}": start the service with this configuration first`,
    );
  const book = readBook(own, EMPTY_BOOK);
  const limitSets = book.limitSets.get(organisation) ?? new Map<string, unknown>();
  const orders = book.orders.get(organisation) ?? [];
  const byId = <T>(map: ReadonlyMap<string, T>): Map<string, T> =>
    new Map([...map].map(([key, value]) => [key.slice(organisationOf(key).length + 1), value]));
  return {
    sites: byId(book.sites),
    broken: byId(book.broken),
    limitSets: [...limitSets.keys()],
    at: (site) => (limitSets.has(site.limits) ? readWhatIf({ limitSets, orders }, { site }) : null),
    alertsBefore: async (placeKey) => (await store.forecasts.places([placeKey]))[0]?.remembered ?? null,
    close: store.close,
  };
}

/** A file that cannot be imported as it stands differs as well. */
async function isFileNewer(
  store: Store,
  { config: { organisation }, written }: ReadConfig,
  file: string,
  nowMs: number,
): Promise<boolean> {
  try {
    const { changes } = await planImport(store, { written, organisation, file, nowMs });
    return changes.length > 0;
  } catch (fault) {
    if (fault instanceof ServiceError && fault.code.startsWith('config_')) return true;
    throw fault;
  }
}
