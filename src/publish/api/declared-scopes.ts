// Every route says who may call it, in its options and so in the OpenAPI document; one that says nothing cannot be added.

import type { FastifyInstance } from 'fastify';
import { ServiceError } from '#errors.ts';
import { signInCookieName } from '#publish/access/sign-in-cookie.ts';
import { problemSchema } from '#publish/wire.ts';
import type { RouteScope } from './request-viewer.ts';

export const SECURITY_SCHEMES = {
  bearer: {
    type: 'http',
    scheme: 'bearer',
    description:
      'A key made with "pitward key new". Asked for wherever the service is not bound to its own machine alone.',
  },
  basic: { type: 'http', scheme: 'basic', description: 'The key as password, any user name; for programs.' },
  cookie: {
    type: 'apiKey',
    in: 'cookie',
    name: signInCookieName(true),
    description:
      'Set where a personal link is opened and its button pressed. A change is taken from a page of this service alone.',
  },
} as const;

/** OpenAPI 3.1: the list names the role that is needed. */
const securityOf = (scope: RouteScope): Record<string, string[]>[] =>
  scope === 'open' ? [] : [{ bearer: [scope] }, { basic: [scope] }, { cookie: [scope] }];

/** What the gate says before any route that asks for a key. */
const GATE_PROBLEMS = { 401: problemSchema, 403: problemSchema, 429: problemSchema };

/** To be called before the first route is added. */
export function requireDeclaredScopes(app: FastifyInstance): void {
  app.addHook('onRoute', (route) => {
    const scope = route.config?.scope;
    if (scope === undefined) {
      throw new ServiceError('internal', `${String(route.method)} ${route.url} declares no scope`);
    }
    const { response } = route.schema ?? {};
    const answers = response && scope !== 'open' ? { response: { ...GATE_PROBLEMS, ...response } } : {};
    route.schema = { ...route.schema, ...answers, security: securityOf(scope) };
  });
}
