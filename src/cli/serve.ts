// pitward serve: the REST API and the pages, live or as a demo.

import type { FastifyInstance } from 'fastify';
import { pino } from 'pino';
import { loadConfig } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { ServiceError } from '#errors.ts';
import { createService } from '#service/service.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './settings.ts';
import { EXIT, type Terminal } from './terminal.ts';
import { VERSION } from './version.ts';

const HOST = '127.0.0.1';
const PORTS_TRIED = 20;

export async function serve(args: Arguments, terminal: Terminal): Promise<number> {
  if (args.words.length > 0) throw usage('serve takes no site; it serves all that the configuration names');
  const demo = args.options.demo === true;
  const wanted = portOf(args, terminal);
  const config = loadConfig(configFileOf(args, terminal));
  const nowMs = terminal.nowMs;
  const standIn = demo ? await startStandIn({ nowMs }) : null;
  const logger = pino({ level: logLevelOf(terminal) }, pino.destination({ dest: 2, sync: true }));
  const service = await createService({
    config: standIn ? withBaseUrl(config, standIn.baseUrl) : config,
    demo,
    nowMs,
    logger,
    version: VERSION,
    ownSource: standIn !== null,
  });
  const stopped = stopSignal();
  const firstRound = service.keeper.pullAll();
  const port = await listenFrom(service.app, wanted, terminal);
  service.keeper.start();
  terminal.out(
    `${demo ? 'DEMO, invented sites and forecast. ' : ''}Pitward on http://${HOST}:${port}/  (API: /v1/sites, /docs)`,
  );
  await Promise.race([firstRound, stopped]);
  for (const site of service.desk.sites()) {
    if (site.state.fault) terminal.err(`No forecast for ${site.id}: ${site.state.fault.message}`);
  }
  await stopped;
  await service.close();
  await standIn?.close();
  return EXIT.done;
}

function portOf({ options }: Arguments, { environment }: Terminal): number {
  const text = typeof options.port === 'string' ? options.port : environment['PORT'] || '8080';
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65_535) return port;
  const name = typeof options.port === 'string' ? '--port' : 'PORT';
  throw usage(`${name}: expected a number from 0 to 65535, found "${text}"`);
}

const LOG_LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'];

function logLevelOf({ environment }: Terminal): string {
  const level = environment['LOG_LEVEL'] || 'info';
  if (LOG_LEVELS.includes(level)) return level;
  throw usage(`LOG_LEVEL: expected one of ${LOG_LEVELS.join(', ')}, found "${level}"`);
}

/** Listens on the first free port from `wanted` on, saying so where it is another. */
async function listenFrom(app: FastifyInstance, wanted: number, terminal: Terminal): Promise<number> {
  for (let port = wanted; port <= Math.min(65_535, wanted + PORTS_TRIED); port += 1) {
    try {
      await app.listen({ host: HOST, port });
      const address = app.server.address();
      return typeof address === 'object' && address !== null ? address.port : port;
    } catch (fault) {
      if ((fault as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw fault;
      terminal.err(`Port ${port} is busy; trying ${port + 1}.`);
    }
  }
  throw new ServiceError('port_in_use', `no free port from ${wanted} to ${wanted + PORTS_TRIED}`);
}

const withBaseUrl = (config: Config, baseUrl: string): Config => ({
  ...config,
  sources: { ...config.sources, nws: { ...config.sources.nws, baseUrl } },
});

const stopSignal = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
