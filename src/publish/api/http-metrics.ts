// Requests counted and timed by route template, never by address: the number of series stays bounded. Each answer only adds
// to plain numbers; what a scrape shows is made of them at the scrape.

import type { FastifyInstance } from 'fastify';
import type { Histogram, Registry } from 'prom-client';

const BUCKETS_S = [0.001, 0.005, 0.025, 0.1, 0.5, 2.5, 10] as const;
const STATUS_CLASSES = ['0xx', '1xx', '2xx', '3xx', '4xx', '5xx'] as const;

/** One route and method. */
interface Series {
  readonly labels: { readonly route: string; readonly method: string };
  /** Answers by the first digit of their status. */
  readonly byClass: number[];
  /** Answers by the first bucket that holds them; the last one has no bound. */
  readonly byBucket: number[];
  sumS: number;
}

/** Counts one answer. */
export type CountAnswer = (route: string, method: string, status: number, seconds: number) => void;

export interface RequestCounts {
  /** For what is answered before the framework. */
  readonly count: CountAnswer;
  /** Puts them into a registry, which asks for them at each scrape. */
  showIn(registry: Pick<Registry, 'registerMetric'>): void;
}

/** Counts what the framework answers from now on. */
export function countRequests(app: FastifyInstance): RequestCounts {
  const routes = new Map<string, Map<string, Series>>();
  const count: CountAnswer = (route, method, status, seconds) => {
    const series = seriesOf(routes, route, method);
    const statusClass = Math.floor(status / 100);
    series.byClass[statusClass] = (series.byClass[statusClass] ?? 0) + 1;
    const bucket = bucketOf(seconds);
    series.byBucket[bucket] = (series.byBucket[bucket] ?? 0) + 1;
    series.sumS += seconds;
  };
  app.addHook('onResponse', (request, reply, done) => {
    count(request.routeOptions.url ?? 'none', request.method, reply.statusCode, reply.elapsedTime / 1000);
    done();
  });
  const all = (): Series[] => [...routes.values()].flatMap((methods) => [...methods.values()]);
  return {
    count,
    showIn(registry) {
      show(registry, {
        name: 'pitward_http_requests_total',
        help: 'requests answered, by route template, method and class of status',
        type: 'counter',
        values: () => all().flatMap(countsOf),
      });
      show(registry, {
        name: DURATION,
        help: HELP,
        type: 'histogram',
        values: () => all().flatMap(timesOf),
      });
    },
  };
}

const DURATION = 'pitward_http_request_duration_seconds';
const HELP = 'time from the request to the end of its answer';

function seriesOf(routes: Map<string, Map<string, Series>>, route: string, method: string): Series {
  const known = routes.get(route)?.get(method);
  if (known) return known;
  const byBucket = Array.from({ length: BUCKETS_S.length + 1 }, () => 0);
  const series = { labels: { route, method }, byClass: STATUS_CLASSES.map(() => 0), byBucket, sumS: 0 };
  routes.set(route, (routes.get(route) ?? new Map<string, Series>()).set(method, series));
  return series;
}

function bucketOf(seconds: number): number {
  let bucket = 0;
  while (seconds > (BUCKETS_S[bucket] ?? Number.POSITIVE_INFINITY)) bucket += 1;
  return bucket;
}

interface Shown {
  readonly metricName?: string;
  readonly labels: Readonly<Record<string, string | number>>;
  readonly value: number;
}

const countsOf = ({ labels, byClass }: Series): Shown[] =>
  byClass.flatMap((value, i) =>
    value === 0 ? [] : [{ labels: { ...labels, status: STATUS_CLASSES[i] ?? 'none' }, value }],
  );

function timesOf({ labels, byBucket, sumS }: Series): Shown[] {
  let count = 0;
  const buckets = byBucket.map((inBucket, i): Shown => {
    count += inBucket;
    return {
      metricName: `${DURATION}_bucket`,
      labels: { le: BUCKETS_S[i] ?? '+Inf', ...labels },
      value: count,
    };
  });
  return [
    ...buckets,
    { metricName: `${DURATION}_sum`, labels, value: sumS },
    { metricName: `${DURATION}_count`, labels, value: count },
  ];
}

interface View {
  readonly name: string;
  readonly help: string;
  readonly type: 'counter' | 'histogram';
  values(): Shown[];
}

/** A registry asks no more of a metric than a name, and its values when scraped. */
function show(registry: Pick<Registry, 'registerMetric'>, { name, help, type, values }: View): void {
  const metric = { name, get: async () => ({ name, help, type, aggregator: 'sum', values: values() }) };
  registry.registerMetric(metric as unknown as Histogram);
}
