// What /metrics says of requests, against the same answers counted by the Prometheus client itself.

import fastify, { type FastifyInstance } from 'fastify';
import { Counter, Histogram, Registry } from 'prom-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countRequests } from '#publish/api/http-metrics.ts';

const BUCKETS_S = [0.001, 0.005, 0.025, 0.1, 0.5, 2.5, 10];

/** Lines of the text format in no order: labels and series may come in any. */
const told = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => {
      const [, name = line, labels, value = ''] = /^(\w+)(?:\{(.*)\})? (\S+)$/.exec(line) ?? [];
      return labels === undefined ? line : `${name}{${labels.split(',').sort().join(',')}} ${value}`;
    })
    .sort();

/** Counts the same answers with the client's own counter and histogram. */
function countByClient(app: FastifyInstance, registry: Registry): void {
  const registers = [registry];
  const requests = new Counter({
    name: 'pitward_http_requests_total',
    help: 'requests answered, by route template, method and class of status',
    labelNames: ['route', 'method', 'status'],
    registers,
  });
  const duration = new Histogram({
    name: 'pitward_http_request_duration_seconds',
    help: 'time from the request to the end of its answer',
    labelNames: ['route', 'method'],
    buckets: BUCKETS_S,
    registers,
  });
  app.addHook('onResponse', async (request, reply) => {
    const labels = { route: request.routeOptions.url ?? 'none', method: request.method };
    requests.inc({ ...labels, status: `${Math.floor(reply.statusCode / 100)}xx` });
    duration.observe(labels, reply.elapsedTime / 1000);
  });
}

describe('requests in /metrics', () => {
  const ours = new Registry();
  const theirs = new Registry();
  const app = fastify();
  beforeAll(async () => {
    // Times are set, and lie on, below and above the bounds of the buckets.
    const elapsedMs = [0, 0.5, 1, 1.001, 24, 25, 99, 100, 499, 2500, 9999, 10_000, 10_001, 60_000];
    let count = 0;
    app.addHook('onRequest', async (_request, reply) => {
      const value = elapsedMs[count++ % elapsedMs.length];
      Object.defineProperty(reply, 'elapsedTime', { value });
    });
    countRequests(app).showIn(ours);
    countByClient(app, theirs);
    app.get<{ Params: { code: string } }>('/answers/:code', (request, reply) =>
      reply.code(Number(request.params.code)).send(''),
    );
    app.post('/answers/:code', (_request, reply) => reply.code(201).send('"made"'));
    for (let i = 0; i < 40; i += 1) {
      await app.inject({ url: `/answers/${[200, 304, 404, 503][i % 4]}` });
      if (i % 3 === 0) await app.inject({ method: 'POST', url: '/answers/1', payload: {} });
      if (i % 5 === 0) await app.inject({ method: 'HEAD', url: '/answers/200' });
      if (i % 7 === 0) await app.inject({ url: `/nowhere/${i}` });
    }
  });
  afterAll(() => app.close());

  it('are what the client says of them, line by line', async () => {
    const text = await ours.metrics();
    expect(told(text)).toEqual(told(await theirs.metrics()));
    expect(text).toContain(
      'pitward_http_requests_total{route="/answers/:code",method="GET",status="5xx"} 10',
    );
  });

  it('make no series for addresses that are not there', async () => {
    expect(await ours.metrics()).not.toContain('nowhere');
    expect(await ours.metrics()).toContain('route="none"');
  });

  it('stay when they are scraped again', async () => {
    expect(await ours.metrics()).toBe(await ours.metrics());
  });
});
