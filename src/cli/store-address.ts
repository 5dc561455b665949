// Where the store is: DATABASE_URL from the environment, else the file that the configuration names, beside it.

import { dirname, resolve } from 'node:path';
import { loadConfig } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import type { StoreAddress } from '#store/open-store.ts';
import type { Arguments } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import type { Terminal } from './terminal.ts';

/** Throws ServiceError `config_…`. `config` is the configuration where it is read already. */
export function storeAddress(
  args: Arguments,
  terminal: Terminal,
  config?: Pick<Config, 'store'>,
): StoreAddress {
  const databaseUrl = terminal.environment['DATABASE_URL'];
  if (databaseUrl) return { databaseUrl };
  const configFile = configFileOf(args, terminal);
  const { store } = config ?? loadConfig(configFile);
  return { sqliteFile: resolve(dirname(configFile), store.file) };
}
