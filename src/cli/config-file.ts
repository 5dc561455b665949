// Which configuration file a command goes by.

import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Arguments } from './arguments.ts';
import type { Terminal } from './terminal.ts';

const SHIPPED = (name: string): string => fileURLToPath(new URL(`../../config/${name}`, import.meta.url));

/** Configuration by --config, PITWARD_CONFIG or pitward.yaml; the demo's with --demo. */
export function configFileOf({ options }: Arguments, { environment }: Terminal): string {
  if (options.demo) return SHIPPED('demo.yaml');
  const given = typeof options.config === 'string' ? options.config : environment['PITWARD_CONFIG'];
  return resolve(given ?? 'pitward.yaml');
}
