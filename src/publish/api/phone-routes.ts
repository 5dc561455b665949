// The scripts of the pages, the worker, the manifest and its icon: the same for everybody, and nothing of any site.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import type { PhoneFiles } from '#publish/served/phone-files.ts';

const SCRIPT = 'text/javascript; charset=utf-8';
/** A worker goes by the policy that it came with. */
const OF_WORKER = "default-src 'none'; connect-src 'self'";
const YEAR = 'public, max-age=31536000, immutable';
const NO_CACHE = 'no-cache';

/** A pit under its curtain of air, seen from the side. */
const ICON =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64"><path fill="#fff" d="M0 0h64v64H0z"/><path d="M6 30h10v22h32V30h10" fill="none" stroke="#17140f" stroke-width="6"/><path d="M12 20q20-14 40 0" fill="none" stroke="#124e78" stroke-width="5"/><path d="M24 46h16v6H24z" fill="#7a1010"/></svg>';

const MANIFEST = JSON.stringify({
  name: 'Pitward',
  short_name: 'Pitward',
  start_url: '/',
  scope: '/',
  display: 'standalone',
  background_color: '#ffffff',
  theme_color: '#17140f',
  icons: [{ src: '/icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
});

export function addPhoneRoutes(app: FastifyInstance, files: () => PhoneFiles): void {
  const open = { config: { scope: 'open', uncounted: true }, schema: { hide: true } } as const;
  app.get<{ Params: { name: string } }>(
    '/s/:name',
    { ...open, schema: { hide: true, params: z.object({ name: z.string().max(80) }) } },
    async (request, reply) => {
      const text = files().scripts.get(request.params.name);
      if (text === undefined) throw new ServiceError('not_found', 'no such script');
      return reply.type(SCRIPT).header('cache-control', YEAR).send(text);
    },
  );
  app.get('/sw.js', open, async (_request, reply) =>
    reply
      .type(SCRIPT)
      .header('cache-control', NO_CACHE)
      .header('content-security-policy', OF_WORKER)
      .send(files().worker),
  );
  app.get('/manifest.webmanifest', open, async (_request, reply) =>
    reply.type('application/manifest+json').header('cache-control', NO_CACHE).send(MANIFEST),
  );
  app.get('/icon.svg', open, async (_request, reply) =>
    reply.type('image/svg+xml').header('cache-control', NO_CACHE).send(ICON),
  );
}
