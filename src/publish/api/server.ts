// The Fastify instance: routes, OpenAPI, problems. It does not listen.

import fastifySwagger from '@fastify/swagger';
import fastify, {
  type FastifyBaseLogger,
  type FastifyInstance,
  type FastifyReply,
  type FastifyRequest,
  LogController,
} from 'fastify';
import {
  jsonSchemaTransform,
  jsonSchemaTransformObject,
  serializerCompiler,
  validatorCompiler,
} from 'fastify-type-provider-zod';
import { ServiceError } from '#errors.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { createAnswerCache } from './answer-cache.ts';
import { addHealthRoutes } from './health.ts';
import { tidied } from './openapi.ts';
import { addPageRoutes } from './pages.ts';
import { problemOf } from './problem.ts';
import { addSiteRoutes } from './sites.ts';
import { addWhatIfRoute } from './what-if.ts';

export const BODY_LIMIT_BYTES = 65_536;

export interface ServerOptions {
  readonly desk: PlanDesk;
  /** Fastify's own kind of logger; none: silent. */
  readonly logger: FastifyBaseLogger | null;
  readonly version: string;
}

export async function buildServer({ desk, logger, version }: ServerOptions): Promise<FastifyInstance> {
  const app = fastify({
    ...(logger ? { loggerInstance: logger } : { logger: false }),
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: BODY_LIMIT_BYTES,
    routerOptions: { maxParamLength: 80 },
    // Addresses that cannot even be routed get the same kind of answer.
    frameworkErrors: (fault, request, reply) => {
      void sendProblem(fault, request, reply);
    },
  }) as unknown as FastifyInstance;
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler((fault, request, reply) => sendProblem(fault, request, reply));
  app.setNotFoundHandler((request) => {
    throw new ServiceError('not_found', `nothing at ${request.method} ${request.url.slice(0, 200)}`);
  });
  await app.register(fastifySwagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Pitward',
        version,
        description: `Burn windows for air-curtain pit burns. ${wordsFor('en').caution}`,
      },
      tags: [
        { name: 'answers', description: 'may we light, from when, until when, and why' },
        { name: 'sites', description: 'what is configured' },
        { name: 'health', description: 'whether the service can answer' },
      ],
    },
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
  app.register((routes, _options, done) => {
    addHealthRoutes(routes, desk);
    addSiteRoutes(routes, desk, createAnswerCache());
    addWhatIfRoute(routes, desk);
    addPageRoutes(routes, desk);
    routes.get('/openapi.json', { schema: { hide: true } }, async (_request, reply) =>
      reply
        .header('content-type', 'application/json; charset=utf-8')
        .send(JSON.stringify(tidied(app.swagger()))),
    );
    done();
  });
  return app;
}

function sendProblem(fault: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const problem = problemOf(fault);
  if (problem.status >= 500) request.log.error({ err: fault, url: request.url }, 'request failed');
  return reply
    .code(problem.status)
    .header('content-type', 'application/problem+json; charset=utf-8')
    .send(JSON.stringify(problem));
}
