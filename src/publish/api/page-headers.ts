// What browsers must not do with a page. Worked out once by helmet, and then laid on every page.

import fastifyHelmet from '@fastify/helmet';
import fastify from 'fastify';

/** The pages carry one inline style sheet and nothing else. */
const PAGE_SOURCES = {
  defaultSrc: ["'none'"],
  styleSrc: ["'unsafe-inline'"],
  imgSrc: ['data:'],
  baseUri: ["'none'"],
  formAction: ["'none'"],
  frameAncestors: ["'none'"],
};

/** Those that only mean something to browsers no longer in use are left out; HTTPS, and so HSTS, is the proxy's. */
const WANTED = {
  contentSecurityPolicy: { useDefaults: false, directives: PAGE_SOURCES },
  crossOriginOpenerPolicy: { policy: 'same-origin' },
  crossOriginResourcePolicy: { policy: 'same-origin' },
  referrerPolicy: { policy: 'no-referrer' },
  frameguard: { action: 'deny' },
  strictTransportSecurity: false,
  originAgentCluster: false,
  dnsPrefetchControl: false,
  ieNoOpen: false,
  permittedCrossDomainPolicies: false,
  xssFilter: false,
} as const;

export async function pageHeaders(): Promise<Readonly<Record<string, string>>> {
  const plain = fastify();
  const guarded = fastify();
  await guarded.register(fastifyHelmet, WANTED as never);
  const namesOf = async (app: typeof plain) => {
    app.get('/', (_request, reply) => reply.send(''));
    const { headers } = await app.inject('/');
    await app.close();
    return headers;
  };
  const without = await namesOf(plain);
  const all = Object.entries(await namesOf(guarded));
  return Object.fromEntries(
    all.filter(([name]) => !(name in without)).map(([name, value]) => [name, String(value)]),
  );
}
