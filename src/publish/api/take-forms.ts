// Bodies as forms send them: of pages, and of gateways that send no JSON.

import type { FastifyInstance } from 'fastify';

export function takeForms(app: FastifyInstance): void {
  app.addContentTypeParser(
    'application/x-www-form-urlencoded',
    { parseAs: 'string' },
    (_request, body, done) => done(null, Object.fromEntries(new URLSearchParams(String(body)))),
  );
}
