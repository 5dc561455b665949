// The routes that a server really has, hidden ones and those that come by themselves (HEAD) too: noted as each is added.

import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import type { FastifyInstance, RouteOptions } from 'fastify';

export interface RegisteredRoute {
  readonly method: string;
  /** The template, such as /v1/sites/:id. */
  readonly url: string;
  /** What the server itself goes by. */
  readonly scope: string | undefined;
}

/** Runs `start`, and gives what it gives with a list of the routes of each server made meanwhile. */
export async function withRoutes<T>(
  start: () => Promise<T>,
): Promise<{ made: T; routesOf(app: FastifyInstance): readonly RegisteredRoute[] }> {
  const byServer = new Map<unknown, RegisteredRoute[]>();
  const note = (message: unknown): void => {
    const app = (message as { fastify: FastifyInstance }).fastify;
    const routes: RegisteredRoute[] = [];
    byServer.set(app, routes);
    app.addHook('onRoute', ({ method, url, config }: RouteOptions) => {
      for (const each of [method].flat()) routes.push({ method: each, url, scope: config?.scope });
    });
  };
  subscribe('fastify.initialization', note);
  try {
    const made = await start();
    return { made, routesOf: (app) => byServer.get(app) ?? [] };
  } finally {
    unsubscribe('fastify.initialization', note);
  }
}
