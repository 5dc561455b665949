// pitward work: a process that pulls and plans, and answers nobody. Any number of them share one PostgreSQL.

import { basename } from 'node:path';
import { doubtLines } from '#config/doubts.ts';
import { readConfigFile } from '#config/load.ts';
import { createService } from '#service/service.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { openKept } from './kept.ts';
import { createLogger } from './logger.ts';
import { logLevelOf, stopSignal } from './serve.ts';
import { EXIT, type Terminal } from './terminal.ts';
import { VERSION } from './version.ts';

export async function work(args: Arguments, terminal: Terminal): Promise<number> {
  if (args.words.length > 0) throw usage('work takes no site; it works for all');
  if (!terminal.environment['DATABASE_URL'])
    throw usage(
      'work shares a PostgreSQL with others: DATABASE_URL names it. Alone, "pitward serve" does everything',
    );
  const file = configFileOf(args, terminal);
  const { config, written } = readConfigFile(file);
  for (const line of doubtLines(config)) terminal.err(line);
  const logger = createLogger(logLevelOf(terminal));
  const kept = await openKept(args, config, terminal);
  const service = await createService({
    ...kept,
    takesTurns: true,
    config,
    written,
    file: basename(file),
    goBack: args.options['go-back'] === true,
    showImport: (lines) => terminal.err(lines.join('\n')),
    demo: false,
    ownSource: false,
    secret: (name) => terminal.environment[name] || null,
    nowMs: terminal.nowMs,
    logger,
    version: VERSION,
  });
  const stopped = stopSignal();
  service.start();
  await service.keeper.minute();
  terminal.out('Pitward at work.');
  await stopped;
  await service.close();
  await kept.store.close();
  return EXIT.done;
}
