// Requests counted and timed by route template, never by address: the number of series stays bounded.

import type { FastifyInstance } from 'fastify';
import { Counter, Histogram, type Registry } from 'prom-client';

const BUCKETS_S = [0.001, 0.005, 0.025, 0.1, 0.5, 2.5, 10];

export function countRequests(app: FastifyInstance, registry: Registry): void {
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
  app.addHook('onResponse', (request, reply, done) => {
    const route = request.routeOptions.url ?? 'none';
    const { method } = request;
    requests.inc({ route, method, status: `${Math.floor(reply.statusCode / 100)}xx` });
    duration.observe({ route, method }, reply.elapsedTime / 1000);
    done();
  });
}
