// The Fastify instance: gate, routes, OpenAPI, problems. It does not listen.

import fastifySwagger from '@fastify/swagger';
import fastify, {
  type FastifyBaseLogger,
  type FastifyInstance,
  type FastifyReply,
  type FastifyRequest,
  LogController,
} from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { ServiceError } from '#errors.ts';
import { type Access, createCallers } from '#publish/access/caller.ts';
import { createRequestIds } from '#publish/access/request-id.ts';
import { addSettingsRoutes } from '#publish/api/settings/settings-routes.ts';
import type { CalendarDesk } from '#publish/calendar-desk.ts';
import type { CapDesk } from '#publish/cap-desk.ts';
import type { DefinitionDesk } from '#publish/definition-desk.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { EventDesk } from '#publish/event-desk.ts';
import type { GaugeReadings } from '#publish/gauges.ts';
import type { HistoryDesk } from '#publish/history-desk.ts';
import type { PlayDesk } from '#publish/play-desk.ts';
import { openMapLibrary } from '#publish/served/map-library.ts';
import { type PhoneFiles, phoneFilesOf } from '#publish/served/phone-files.ts';
import type { SettingsDesk } from '#publish/settings-desk.ts';
import type { SubscriptionDesk } from '#publish/subscription-desk.ts';
import type { TileDesk } from '#publish/tile-desk.ts';
import { createAnswerCache } from './answer-cache.ts';
import { addCalendarRoutes } from './calendars.ts';
import { addCapRoutes } from './cap.ts';
import { DATA_HEADERS } from './data-headers.ts';
import { requireDeclaredScopes } from './declared-scopes.ts';
import { addDefinitionRoutes } from './definitions.ts';
import { closeWithAnswers, createDraining, type Draining } from './draining.ts';
import { addEventStream } from './event-stream.ts';
import type { EventStreams } from './event-streams.ts';
import { addEventRoutes } from './events.ts';
import { createFront, type Front } from './front.ts';
import { addGate } from './gate.ts';
import { addGroundFiles } from './ground-files.ts';
import { addHealthRoutes } from './health.ts';
import { addMetrics } from './metrics.ts';
import { tidied } from './openapi.ts';
import { openapiOptions } from './openapi-options.ts';
import { pageHeaders } from './page-headers.ts';
import { addPageRoutes } from './pages.ts';
import { addPhoneRoutes } from './phone-routes.ts';
import { addPlayRoutes } from './play.ts';
import { addPressureValve, MOST_LOOP_DELAY_MS } from './pressure.ts';
import { createLimiter, DEFAULT_RATE_LIMITS, type Limiter, type RateLimits } from './rate-limit.ts';
import { createReadyAnswers } from './ready-answers.ts';
import { addRequestLog } from './request-log.ts';
import { sendProblem } from './send-problem.ts';
import { addSignInRoutes, createSignInSender, type SendSignIn } from './sign-in.ts';
import { addSiteRoutes } from './sites.ts';
import { addSubscriptionRoutes } from './subscriptions.ts';
import { addWatchRoutes, type StreamedParts } from './watch.ts';
import { addWhatIfRoute } from './what-if.ts';

export const BODY_LIMIT_BYTES = 65_536;

export interface ServerOptions {
  readonly desk: PlanDesk;
  /** Fastify's own kind of logger; none: silent. */
  readonly logger: FastifyBaseLogger | null;
  readonly version: string;
  /** Left out: open, as for a service bound to its own machine. */
  readonly access?: Access;
  /** Null or left out: nothing can be changed through the API. */
  readonly definitions?: DefinitionDesk | null;
  /** Null or left out: no pages to change things with. */
  readonly settings?: SettingsDesk | null;
  /** Null or left out: nothing is watched. */
  readonly watching?: StreamedParts | null;
  /** Null or left out: no log of events. */
  readonly events?: EventDesk | null;
  /** Null or left out: nothing is sent to other programs. */
  readonly subscriptions?: SubscriptionDesk | null;
  /** Null or left out: nobody can follow it. */
  readonly eventStreams?: EventStreams | null;
  /** Null or left out: no calendars. */
  readonly calendar?: CalendarDesk | null;
  /** Null or left out: no messages for dispatch centres. */
  readonly cap?: CapDesk | null;
  /** Simulated shifts; only the demonstration has them. */
  readonly play?: PlayDesk | null;
  /** Null or left out: past days are not shown. */
  readonly history?: HistoryDesk | null;
  /** Null or left out: the operator has supplied no map tiles. */
  readonly tiles?: TileDesk | null;
  /** Read at every scrape of /metrics; left out: only what the server itself counts. */
  readonly gauges?: () => Promise<GaugeReadings>;
  readonly rateLimits?: RateLimits;
  /** Addresses and networks whose X-Forwarded-… are believed. */
  readonly trustProxy?: readonly string[];
  readonly draining?: Draining;
  readonly mostLoopDelayMs?: number;
}

export async function buildServer(options: ServerOptions): Promise<FastifyInstance> {
  const { desk, version } = options;
  const { access = OPEN, rateLimits = DEFAULT_RATE_LIMITS } = options;
  const draining = options.draining ?? createDraining();
  const front = createFront(draining);
  const requestIdFor = createRequestIds();
  const limiter = createLimiter(rateLimits, access.kind === 'open');
  const app = bareServer(options, front, requestIdFor);
  app.setErrorHandler((fault, request, reply) => sendProblem(fault, request, reply));
  app.setNotFoundHandler((request) => {
    throw new ServiceError(
      'not_found',
      `nothing at ${request.method} ${request.url.replace(/[?#].*/s, '').slice(0, 200)}`,
    );
  });
  // A form of a page elsewhere can send text/plain without asking; JSON it cannot.
  app.removeContentTypeParser('text/plain');
  const headersOfPages = pageHeaders();
  const sendSignIn = createSignInSender({ desk, headers: headersOfPages });
  await addGuards(app, options, { access, limiter, sendSignIn });
  await app.register(fastifySwagger, openapiOptions(version));
  const files = () => phoneFilesOf(version);
  const metrics = addMetrics(app, {
    gauges: options.gauges ?? null,
    organisation: desk.organisation,
    version,
  });
  const cache = createAnswerCache();
  const ready = createReadyAnswers({
    ...{ access, cache, desk, limiter, requestIdFor },
    behindProxy: (options.trustProxy ?? []).length > 0,
    callerOf: createCallers(access, desk.organisation),
    isUnderPressure: () => app.isUnderPressure(),
    count: metrics.count,
  });
  app.addHook('onReady', async () => front.answerBy(ready));
  app.addHook('preClose', async () => front.shut());
  closeWithAnswers(app, draining);
  app.register((routes, _options, done) => {
    addHealthRoutes(routes, desk, draining);
    addSiteRoutes(routes, desk, cache);
    metrics.addRoute(routes);
    addDeskRoutes(routes, options, files, headersOfPages);
    if (options.calendar) addCalendarRoutes(routes, { desk, access, calendar: options.calendar });
    addSignInRoutes(routes, { desk, access, headers: headersOfPages }, sendSignIn);
    addOpenapiRoute(routes);
    addPhoneRoutes(routes, files);
    done();
  });
  return app;
}

/** What answers by the desks that there are. */
function addDeskRoutes(
  routes: FastifyInstance,
  {
    desk,
    definitions,
    settings,
    watching,
    cap,
    events,
    eventStreams,
    subscriptions,
    play,
    history,
    tiles,
  }: ServerOptions,
  files: () => PhoneFiles,
  headers: Readonly<Record<string, string>>,
): void {
  addWhatIfRoute(routes, desk);
  if (definitions) addDefinitionRoutes(routes, definitions);
  if (definitions && settings) addSettingsRoutes(routes, { desk, definitions, settings, headers });
  if (watching) addWatchRoutes(routes, desk, watching, headers);
  if (watching && events) addEventRoutes(routes, { desk, events, say: watching.say });
  if (subscriptions) addSubscriptionRoutes(routes, subscriptions);
  if (eventStreams) addEventStream(routes, eventStreams);
  if (cap) addCapRoutes(routes, cap);
  if (play) addPlayRoutes(routes, desk, play, headers);
  const ground = tiles ? { tiles, library: openMapLibrary(), script: () => files().map } : null;
  if (ground) addGroundFiles(routes, ground.tiles, ground.library);
  const seen = {
    desk,
    files,
    ground,
    watching: watching ?? null,
    canPlay: Boolean(play),
    history: history ?? null,
  };
  addPageRoutes(routes, seen, headers);
}

function addOpenapiRoute(routes: FastifyInstance): void {
  routes.get(
    '/openapi.json',
    { schema: { hide: true }, config: { scope: 'read' } },
    async (_request, reply) =>
      reply
        .header('content-type', 'application/json; charset=utf-8')
        .header('cache-control', 'no-cache')
        .send(JSON.stringify(tidied(routes.swagger()))),
  );
}

const OPEN: Access = { kind: 'open', hosts: [] };

type RequestIds = ReturnType<typeof createRequestIds>;

function bareServer(
  { logger, trustProxy }: ServerOptions,
  { serverFactory }: Front,
  requestIdFor: RequestIds,
): FastifyInstance {
  return fastify({
    serverFactory: (framework) => serverFactory(framework),
    ...(logger ? { loggerInstance: logger } : { logger: false }),
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: BODY_LIMIT_BYTES,
    // As long as a personal link may be; what names something else is held shorter by its own schema.
    routerOptions: { maxParamLength: 400 },
    trustProxy: trustProxy && trustProxy.length > 0 ? [...trustProxy] : false,
    requestIdHeader: false,
    genReqId: (raw) => requestIdFor(raw.headers['x-request-id']),
    // Named here, those that come with the framework are not even loaded.
    schemaController: {
      compilersFactory: {
        buildValidator: () => validatorCompiler as never,
        buildSerializer: () => serializerCompiler as never,
      },
    },
    forceCloseConnections: 'idle',
    // Addresses that cannot even be routed get the same kind of answer.
    frameworkErrors: (fault, request, reply) => {
      void sendProblem(fault, request, headed(request, reply));
    },
  }) as unknown as FastifyInstance;
}

const headed = (request: FastifyRequest, reply: FastifyReply): FastifyReply =>
  reply.headers(DATA_HEADERS).header('x-request-id', request.id);

interface Guarding {
  readonly access: Access;
  readonly limiter: Limiter;
  readonly sendSignIn: SendSignIn;
}

/** What holds before any route, in this order. */
async function addGuards(
  app: FastifyInstance,
  { desk, mostLoopDelayMs }: ServerOptions,
  { access, limiter, sendSignIn }: Guarding,
): Promise<void> {
  requireDeclaredScopes(app);
  app.addHook('onRequest', (request, reply, done) => {
    headed(request, reply);
    done();
  });
  addRequestLog(app);
  await addPressureValve(app, mostLoopDelayMs ?? MOST_LOOP_DELAY_MS);
  addGate(app, {
    access,
    organisation: desk.organisation,
    limiter,
    nowMs: () => desk.nowMs(),
    askToSignIn: (request, reply) => void sendSignIn(request, reply, { kind: 'needed' }),
  });
}
