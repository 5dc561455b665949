// docs/metrics.md, the rules and the dashboard beside it, against a live answer of /metrics.

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { type Keyed, startKeyed } from '../service/keyed.ts';
import { askedFor, documentedMetrics, gatheredBy, liveMetrics, type Metric } from './told-metrics.ts';

const pathOf = (name: string): string => fileURLToPath(new URL(`../../docs/${name}`, import.meta.url));
const read = (name: string): string => readFileSync(pathOf(name), 'utf8');

let keyed: Keyed;
let live: Map<string, Metric>;
beforeAll(async () => {
  keyed = await startKeyed('2026-03-03T00:10:00Z');
  const headers = { authorization: `Bearer ${await keyed.mint()}` };
  const scrape = () => keyed.service.app.inject({ url: '/metrics', headers });
  // Failures by cell are told of those that failed.
  await keyed.standIn.close();
  keyed.clock.nowMs += 3_600_000;
  await keyed.service.keeper.pullAll();
  // What a scrape looks up behind it, and the scrape itself, are told by the next one.
  await scrape();
  await keyed.store.care.bytes();
  const { body, headers: told } = await scrape();
  expect(told['content-type']).toBe('text/plain; version=0.0.4; charset=utf-8');
  live = liveMetrics(body);
});
afterAll(() => keyed.close());

/** What Prometheus itself adds. */
const OWN_LABELS = ['job', 'instance'];
const labelsOf = (metric: string): string[] | null => {
  if (metric === 'up') return OWN_LABELS;
  const bucket = /^(.*)_(?:bucket|sum|count)$/.exec(metric)?.[1] ?? '';
  const found = live.get(metric) ?? (live.get(bucket)?.type === 'histogram' ? live.get(bucket) : undefined);
  if (!found || (found.type === 'histogram' && found === live.get(metric))) return null;
  return [...found.labels, ...(metric.endsWith('_bucket') ? ['le'] : []), ...OWN_LABELS];
};

/** Throws where an expression asks for what is not there. */
function expectAnswerable(expression: string): void {
  const asked = askedFor(expression);
  expect(asked.length, expression).toBeGreaterThan(0);
  const known = new Set<string>();
  for (const { metric, labels } of asked) {
    const own = labelsOf(metric);
    expect([metric, own === null], expression).toEqual([metric, false]);
    for (const label of own ?? []) known.add(label);
    expect(
      labels.filter((label) => !own?.includes(label)),
      expression,
    ).toEqual([]);
  }
  expect(
    gatheredBy(expression).filter((label) => !known.has(label)),
    expression,
  ).toEqual([]);
}

describe('docs/metrics.md', () => {
  const documented = documentedMetrics(read('metrics.md'));

  it('tells of every metric there is, and of no other', () => {
    expect([...documented.keys()].sort()).toEqual([...live.keys()].sort());
    expect(live.size).toBeGreaterThan(25);
  });

  it('tells their types and labels as they are', () => {
    const shapeOf = ([name, { type, labels }]: [string, Pick<Metric, 'type' | 'labels'>]) => [
      name,
      type,
      labels.join(' '),
    ];
    expect([...documented].map(shapeOf).sort()).toEqual([...live].map(shapeOf).sort());
  });

  it('every metric has samples, and says what it is', () => {
    for (const [name, { samples, help }] of live) {
      expect([name, samples > 0]).toEqual([name, true]);
      expect(help.length).toBeGreaterThan(8);
    }
  });

  it('its links lead to files', () => {
    const links = [...read('metrics.md').matchAll(/\]\(([^)]+)\)/g)].map(([, to = '']) => to);
    expect(links.length).toBeGreaterThan(2);
    for (const to of links) expect(read(to).length).toBeGreaterThan(100);
  });
});

/** The rule files of Prometheus (its documentation, "Defining recording rules"), as far as they are used here. */
const duration = z.string().regex(/^(?:\d+(?:ms|[smhdwy]))+$/);
const ruleFile = z.strictObject({
  groups: z
    .array(
      z.strictObject({
        name: z.string().min(1),
        interval: duration.optional(),
        rules: z
          .array(
            z.strictObject({
              alert: z.string().regex(/^Pitward[A-Z]\w+$/),
              expr: z.string().min(1),
              for: duration.optional(),
              labels: z.strictObject({ severity: z.enum(['page', 'ticket']) }),
              annotations: z.strictObject({ summary: z.string().min(10), description: z.string().min(20) }),
            }),
          )
          .min(1),
      }),
    )
    .min(1),
});

describe('docs/metrics/alert-rules.yml', () => {
  const rules = ruleFile.parse(parse(read('metrics/alert-rules.yml'))).groups.flatMap((group) => group.rules);

  it('has each rule once', () => {
    expect(new Set(rules.map(({ alert }) => alert)).size).toBe(rules.length);
    expect(rules.length).toBeGreaterThan(10);
  });

  it.each(rules.map(({ alert, expr }) => [alert, expr] as const))('%s asks for what is there', (_, expr) => {
    expectAnswerable(expr);
    expect(expr.match(/[({[]/g)?.length ?? 0).toBe(expr.match(/[)}\]]/g)?.length ?? 0);
    for (const { metric, labels } of askedFor(expr))
      expect([metric, labels.includes('job')]).toEqual([metric, true]);
  });

  it('the cases beside it are of rules and metrics that are there', () => {
    const { tests } = parse(read('metrics/alert-rules.test.yml')) as {
      tests: { input_series: { series: string }[]; alert_rule_test: { alertname: string }[] }[];
    };
    const names = new Set(rules.map(({ alert }) => alert));
    for (const { input_series, alert_rule_test } of tests) {
      for (const { series } of input_series) expectAnswerable(series);
      for (const { alertname } of alert_rule_test)
        expect([alertname, names.has(alertname)]).toEqual([alertname, true]);
    }
  });

  const promtool = process.env['PROMTOOL'] ?? 'promtool';
  const isThere = spawnSync(promtool, ['--version']).status === 0;
  it.skipIf(!isThere)('Prometheus reads it, and fires as its cases say (skipped without promtool)', () => {
    for (const args of [
      ['check', 'rules', pathOf('metrics/alert-rules.yml')],
      ['test', 'rules', pathOf('metrics/alert-rules.test.yml')],
    ]) {
      const { status, stdout, stderr } = spawnSync(promtool, args, { encoding: 'utf8' });
      expect(`${stdout}${stderr}`).toContain('SUCCESS');
      expect(status).toBe(0);
    }
  });
});

describe('docs/metrics/dashboard.json', () => {
  const panel = z.looseObject({
    id: z.int(),
    type: z.enum(['stat', 'timeseries']),
    title: z.string().min(3),
    gridPos: z.strictObject({ x: z.int().min(0), y: z.int().min(0), w: z.int().min(1), h: z.int().min(1) }),
    targets: z.array(z.looseObject({ refId: z.string(), expr: z.string() })).min(1),
  });
  const dashboard = z
    .looseObject({
      title: z.string(),
      schemaVersion: z.int(),
      panels: z.array(panel).min(1),
      templating: z.object({ list: z.array(z.looseObject({ name: z.string(), query: z.string() })) }),
    })
    .parse(JSON.parse(read('metrics/dashboard.json')));

  it('asks for what is there', () => {
    for (const { expr } of dashboard.panels.flatMap(({ targets }) => targets)) expectAnswerable(expr);
    for (const { query } of dashboard.templating.list) {
      if (query !== 'prometheus') expectAnswerable(query);
    }
  });

  it('uses only variables that it defines', () => {
    const defined = new Set(dashboard.templating.list.map(({ name }) => name));
    const used = [...JSON.stringify(dashboard).matchAll(/\$\{?([a-z]+)/g)].map(([, name = '']) => name);
    expect(used.filter((name) => !defined.has(name))).toEqual([]);
  });

  it('has each panel once, 24 columns wide at most, and none over another', () => {
    const cells = dashboard.panels.flatMap(({ gridPos: { x, y, w, h } }) => {
      expect(x + w).toBeLessThanOrEqual(24);
      return Array.from({ length: w * h }, (_, i) => `${x + (i % w)},${y + Math.floor(i / w)}`);
    });
    expect(new Set(cells).size).toBe(cells.length);
    expect(new Set(dashboard.panels.map(({ id }) => id)).size).toBe(dashboard.panels.length);
  });
});
