// pitward check-config: every fault of a configuration at once, and what the next start would change by it.

import { basename } from 'node:path';
import { doubtLines, doubtsOf } from '#config/doubts.ts';
import { readConfigFile } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import { ServiceError } from '#errors.ts';
import { planImport } from '#service/import-config.ts';
import type { Store } from '#store/store.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { isStoreThere } from './is-store-there.ts';
import { openKept } from './kept.ts';
import { storeAddress } from './store-address.ts';
import { EXIT, type Terminal } from './terminal.ts';
import { tilesOf } from './tiles-of.ts';

export async function checkConfig(args: Arguments, terminal: Terminal): Promise<number> {
  if (args.words.length > 0) throw usage('check-config takes no site; name a file with --config');
  const file = configFileOf(args, terminal);
  try {
    const read = readConfigFile(file);
    await (await tilesOf(read.config, file))?.close();
    const changes = await changesBy(read, args, terminal);
    const { sites, limitSets } = read.config;
    const counts = `${counted(sites.length, 'site')}, ${counted(Object.keys(limitSets).length, 'limit set')}`;
    const told =
      changes === null ? [] : ['At the next start:', ...(changes.length > 0 ? changes : ['no change'])];
    if (!args.options.json) for (const line of doubtLines(read.config)) terminal.err(line);
    terminal.out(
      args.options.json
        ? JSON.stringify({ file, faults: [], warnings: doubtsOf(read.config), changes })
        : [`${file}: no fault; ${counts}`, ...told].join('\n'),
    );
    return EXIT.done;
  } catch (fault) {
    if (!args.options.json || !(fault instanceof ServiceError)) throw fault;
    terminal.out(
      JSON.stringify({ file, faults: fault.facts['faults'] ?? [{ path: '(file)', message: fault.message }] }),
    );
    return EXIT.failed;
  }
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

/** Line by line; null where nothing is remembered yet, so that there is nothing to compare with. */
async function changesBy(
  { config, written }: ReturnType<typeof readConfigFile>,
  args: Arguments,
  terminal: Terminal,
): Promise<readonly string[] | null> {
  const address = storeAddress(args, terminal, config);
  if (!isStoreThere(address)) return null;
  const store = await openIfFilled(args, config, terminal);
  if (store === null) return null;
  try {
    const { organisation } = config;
    const file = basename(configFileOf(args, terminal));
    const given = { written, organisation, file, nowMs: terminal.nowMs() };
    return (await planImport(store, given)).lines;
  } finally {
    await store.close();
  }
}

/** Null where there is a database without tables. Throws ServiceError `store_…`. */
async function openIfFilled(args: Arguments, config: Config, terminal: Terminal): Promise<Store | null> {
  try {
    return (await openKept(args, config, terminal, { shared: true, asFound: true })).store;
  } catch (fault) {
    if (fault instanceof ServiceError && fault.code === 'store_older' && fault.facts['empty']) return null;
    throw fault;
  }
}
