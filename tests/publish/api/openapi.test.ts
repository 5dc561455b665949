import { Validator } from '@seriousme/openapi-schema-validator';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Running, startRunning } from '../../service/running.ts';

let running: Running;
beforeAll(async () => {
  running = await startRunning('2026-03-03T01:10:00Z');
});
afterAll(() => running.close());

const document = async () => (await running.service.app.inject({ url: '/openapi.json' })).json();

it('the OpenAPI document is valid 3.1 (JSON Schema of the OpenAPI Initiative)', async () => {
  const openapi = await document();
  expect(openapi.openapi).toBe('3.1.0');
  const { valid, errors } = await new Validator().validate(openapi);
  expect(errors ?? []).toEqual([]);
  expect(valid).toBe(true);
});

it('every path is described with a summary, its parameters and its problems', async () => {
  const { paths } = await document();
  expect(Object.keys(paths).sort()).toEqual([
    '/healthz',
    '/metrics',
    '/readyz',
    '/v1/calendar/{feed}',
    '/v1/cap.atom',
    '/v1/cap/{id}',
    '/v1/contacts',
    '/v1/contacts/{id}',
    '/v1/contacts/{id}/history',
    '/v1/events',
    '/v1/events/stream',
    '/v1/inbound/{channel}',
    '/v1/limit-sets',
    '/v1/limit-sets/{id}',
    '/v1/limit-sets/{id}/history',
    '/v1/messages/{message}/answers',
    '/v1/notices',
    '/v1/notices.geojson',
    '/v1/orders',
    '/v1/orders/{id}',
    '/v1/orders/{id}/history',
    '/v1/plan',
    '/v1/receipts/{channel}',
    '/v1/silences',
    '/v1/silences/{silence}',
    '/v1/sites',
    '/v1/sites.geojson',
    '/v1/sites/{id}',
    '/v1/sites/{id}/burns',
    '/v1/sites/{id}/burns.csv',
    '/v1/sites/{id}/burns/{burn}',
    '/v1/sites/{id}/burns/{burn}/incident',
    '/v1/sites/{id}/burns/{burn}/taps',
    '/v1/sites/{id}/definition',
    '/v1/sites/{id}/drill',
    '/v1/sites/{id}/history',
    '/v1/sites/{id}/hours',
    '/v1/sites/{id}/messages',
    '/v1/sites/{id}/now',
    '/v1/sites/{id}/now/stream',
    '/v1/sites/{id}/observations',
    '/v1/sites/{id}/plan',
    '/v1/sites/{id}/windows',
    '/v1/sites/{id}/windows.csv',
    '/v1/sites/{id}/windows.ics',
    '/v1/smoke-sources',
    '/v1/smoke.geojson',
    '/v1/subscriptions',
    '/v1/subscriptions/{id}',
    '/v1/subscriptions/{id}/deliveries',
    '/v1/subscriptions/{id}/replay',
    '/v1/subscriptions/{id}/rotate',
    '/v1/subscriptions/{id}/test',
    '/v1/windows.ics',
  ]);
  for (const [path, methods] of Object.entries<Record<string, { summary?: string; responses: object }>>(
    paths,
  )) {
    for (const operation of Object.values(methods)) {
      expect(operation.summary?.length).toBeGreaterThan(4);
      if (path.includes('{id}')) expect(Object.keys(operation.responses)).toContain('404');
    }
  }
});

it('names each schema once, all of them used, and leaves room for fields to come', async () => {
  const openapi = await document();
  const text = JSON.stringify(openapi);
  for (const [name, schema] of Object.entries<{ additionalProperties?: unknown }>(
    openapi.components.schemas,
  )) {
    expect(text).toContain(`#/components/schemas/${name}"`);
    expect(schema.additionalProperties).not.toBe(false);
  }
  expect(Object.keys(openapi.components.schemas).filter((n) => n.endsWith('Input'))).toEqual([]);
});

it('the page for people names every path and works without script', async () => {
  const { body, headers } = await running.service.app.inject({ url: '/docs' });
  for (const path of Object.keys((await document()).paths)) expect(body).toContain(path);
  expect(body).not.toContain('<script');
  expect(headers['content-security-policy']).toContain("default-src 'none'");
});
