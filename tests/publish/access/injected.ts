// Asks a server on the spot. A stream does not end by itself: of one that has begun the heads alone are taken. No test in here.

import type { FastifyInstance, InjectOptions } from 'fastify';

export async function injected(app: FastifyInstance, request: InjectOptions) {
  if (!/\/stream\b/.test(String(request.url))) return app.inject(request);
  const response = await app.inject({ ...request, payloadAsStream: true });
  const stream = response.stream();
  let body = '';
  if (response.statusCode === 200) stream.destroy();
  else for await (const part of stream.setEncoding('utf8')) body += part;
  const { statusCode, headers } = response;
  return { statusCode, headers, body, json: () => JSON.parse(body) };
}
