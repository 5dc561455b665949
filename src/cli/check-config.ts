// pitward check-config: every fault of a configuration at once.

import { loadConfig } from '#config/load.ts';
import { ServiceError } from '#errors.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './settings.ts';
import { EXIT, type Terminal } from './terminal.ts';

export async function checkConfig(args: Arguments, terminal: Terminal): Promise<number> {
  if (args.words.length > 0) throw usage('check-config takes no site; name a file with --config');
  const file = configFileOf(args, terminal);
  try {
    const config = loadConfig(file);
    const sites = `${config.sites.length} ${config.sites.length === 1 ? 'site' : 'sites'}`;
    const sets = `${Object.keys(config.limitSets).length} limit ${Object.keys(config.limitSets).length === 1 ? 'set' : 'sets'}`;
    terminal.out(
      args.options.json ? JSON.stringify({ file, faults: [] }) : `${file}: no fault; ${sites}, ${sets}`,
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
