// pitward serve: the REST API and the pages, live or as a demo.

import { basename } from 'node:path';
import { setTimeout as setTimer } from 'node:timers';
import { setTimeout } from 'node:timers/promises';
import type { FastifyInstance } from 'fastify';
import { doubtLines } from '#config/doubts.ts';
import { readConfigFile } from '#config/load.ts';
import type { Config } from '#config/schema.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { startTextGateway } from '#demo/text-gateway.ts';
import { withTextGateway } from '#demo/with-text-gateway.ts';
import { ServiceError } from '#errors.ts';
import { createPlayDesk } from '#play/create-play-desk.ts';
import { playDay } from '#play/play-day.ts';
import { createDraining, drain } from '#publish/api/draining.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { phoneFilesOf } from '#publish/served/phone-files.ts';
import { thisMachine } from '#publish/viewer.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService } from '#service/service.ts';
import { accessTo, refuseWithoutKeys } from './access-to.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { openKept } from './kept.ts';
import { createLogger } from './logger.ts';
import { EXIT, type Terminal } from './terminal.ts';
import { tilesOf } from './tiles-of.ts';
import { VERSION } from './version.ts';

/** The demo looks for a free port; elsewhere others rely on the one that was given. */
const DEMO_PORTS_TRIED = 20;
/** What no start waits for comes this long after it [ms]. */
const AFTER_START_MS = 1000;
/** What is under way may end; what has not ended by then is broken off. */
const DRAIN = {
  lingerMs: 1000,
  mostMs: 10_000,
  wait: (ms: number) => setTimeout(ms, undefined, { ref: false }),
};

export async function serve(args: Arguments, terminal: Terminal): Promise<number> {
  if (args.words.length > 0) throw usage('serve takes no site; it serves all that the configuration names');
  const demo = args.options.demo === true;
  const file = configFileOf(args, terminal);
  const { config, written } = readConfigFile(file);
  if (!demo) for (const line of doubtLines(config)) terminal.err(line);
  const wanted = portOf(args, config, terminal);
  const tiles = await tilesOf(config, file);
  const { nowMs } = terminal;
  const standIn = demo ? await startStandIn({ nowMs }) : null;
  const phones = demo ? await startTextGateway(nowMs) : null;
  const logger = createLogger(logLevelOf(terminal));
  const kept = demo ? await inMemory(nowMs) : await openKept(args, config, terminal);
  await refuseWithoutKeys(config, kept.store, nowMs()).catch(async (fault: unknown) => {
    await kept.store.close();
    throw fault;
  });
  const access = accessTo(config, kept.store, logger);
  const draining = createDraining();
  const service = await createService({
    ...kept,
    takesTurns: args.options['answers-only'] !== true,
    config: standIn && phones ? withTextGateway(withBaseUrl(config, standIn.baseUrl), phones.url) : config,
    written,
    file: basename(file),
    goBack: args.options['go-back'] === true,
    showImport: (lines) => demo || terminal.err(lines.join('\n')),
    access: access.access,
    server: { ...access.server, draining, tiles },
    demo,
    nowMs,
    logger,
    version: VERSION,
    ownSource: standIn !== null,
    secret: (name) => terminal.environment[name] || null,
    ...(demo ? { play: createPlayDesk((seed) => playDay({ seed, written, version: VERSION })) } : {}),
  });
  const stopped = stopSignal();
  const { host } = config.listen;
  const close = async (): Promise<void> => {
    await access.flush();
    await service.close();
    await kept.store.close();
    await tiles?.close();
    await standIn?.close();
    await phones?.close();
  };
  const more = demo ? DEMO_PORTS_TRIED : 0;
  const port = await listenFrom(service.app, host, wanted, more, terminal).catch(async (fault: unknown) => {
    await close();
    throw fault;
  });
  // Beside others what is due is due once for all; alone, a start brings everything to its newest.
  const firstRound = kept.databaseUrl === null ? service.keeper.pullAll() : service.keeper.minute();
  service.start();
  terminal.out(
    `${demo ? 'DEMO, invented sites and forecast. ' : ''}Pitward on http://${host.includes(':') ? `[${host}]` : host}:${port}/  (API: /v1/sites, /docs)`,
  );
  if (phones) terminal.out(phonesLine(phones.url));
  await Promise.race([firstRound, stopped]);
  tellFaults(service.desk, terminal);
  // The first page waits for it where it comes sooner.
  setTimer(() => phoneFilesOf(VERSION), AFTER_START_MS).unref();
  await stopped;
  await drain(service.app, draining, { ...DRAIN, noticeMs: config.listen.noticeMs });
  await close();
  return EXIT.done;
}

const phonesLine = (url: string): string =>
  `No text leaves this machine. What the invented phones got: ${new URL('/', url)}`;

function tellFaults(desk: PlanDesk, terminal: Terminal): void {
  for (const { id, state } of desk.sites(thisMachine(desk.organisation)))
    if (state.fault) terminal.err(`No forecast for ${id}: ${state.fault.message}`);
}

function portOf({ options }: Arguments, { listen }: Config, { environment }: Terminal): number {
  const configured = String(listen.port ?? 8080);
  const text = typeof options.port === 'string' ? options.port : environment['PORT'] || configured;
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65_535) return port;
  const name = typeof options.port === 'string' ? '--port' : 'PORT';
  throw usage(`${name}: expected a number from 0 to 65535, found "${text}"`);
}

const LOG_LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'];

export function logLevelOf({ environment }: Terminal): string {
  const level = environment['LOG_LEVEL'] || 'info';
  if (LOG_LEVELS.includes(level)) return level;
  throw usage(`LOG_LEVEL: expected one of ${LOG_LEVELS.join(', ')}, found "${level}"`);
}

/** Listens on the first free port of `wanted` and the `more` after it, saying so where it is another. */
async function listenFrom(
  app: FastifyInstance,
  host: string,
  wanted: number,
  more: number,
  terminal: Terminal,
): Promise<number> {
  const last = Math.min(65_535, wanted + more);
  for (let port = wanted; port <= last; port += 1) {
    try {
      await app.listen({ host, port });
      const address = app.server.address();
      return typeof address === 'object' && address !== null ? address.port : port;
    } catch (fault) {
      if ((fault as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw fault;
      if (port < last) terminal.err(`Port ${port} is busy; trying ${port + 1}.`);
    }
  }
  const looked = last > wanted ? `${wanted} to ${last} are busy` : `${wanted} is busy`;
  throw new ServiceError('port_in_use', `port ${looked}; --port or PORT names another`);
}

const withBaseUrl = (config: Config, baseUrl: string): Config => ({
  ...config,
  sources: { ...config.sources, nws: { ...config.sources.nws, baseUrl } },
});

/** The first signal asks for an end in good order; a second one finds nobody listening, and ends at once. */
export const stopSignal = (): Promise<void> =>
  new Promise((resolve) => {
    const signals = ['SIGINT', 'SIGTERM'] as const;
    const stop = (): void => {
      for (const signal of signals) process.off(signal, stop);
      resolve();
    };
    for (const signal of signals) process.on(signal, stop);
  });
