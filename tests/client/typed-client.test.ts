// The types of the API are those of its document (openapi-typescript), and a program that is written by them is answered
// (openapi-fetch), over real HTTP: what they name is there.

import { readFileSync } from 'node:fs';
import createClient from 'openapi-fetch';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { typesOf } from '../../client/make-types.ts';
import type { paths } from '../../client/pitward.d.ts';
import { type Keyed, startKeyed } from '../service/keyed.ts';

describe('the typed client', () => {
  let demo: Keyed;
  let client: ReturnType<typeof createClient<paths>>;
  beforeAll(async () => {
    demo = await startKeyed('2026-04-14T17:00:00Z');
    const baseUrl = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
    const key = await demo.mint({ scopes: ['read', 'burn', 'order'] });
    client = createClient<paths>({ baseUrl, headers: { authorization: `Bearer ${key}` } });
  });
  afterAll(() => demo.close());

  it('has the types of the document as it is served', async () => {
    const key = await demo.mint();
    const document = await demo.service.app.inject({
      url: '/openapi.json',
      headers: { authorization: `Bearer ${key}` },
    });
    const kept = readFileSync(new URL('../../client/pitward.d.ts', import.meta.url), 'utf8');
    expect(await typesOf(document.json()), 'npm run client').toBe(kept);
  });

  it('asks for a plan and its windows', async () => {
    const { data: plan, response } = await client.GET('/v1/sites/{id}/plan', {
      params: { path: { id: 'north-block' }, query: { day: 'today' } },
    });
    expect(response.status).toBe(200);
    expect(['go', 'hold', 'stop']).toContain(plan?.verdict);
    const { data: windows } = await client.GET('/v1/sites/{id}/windows', {
      params: { path: { id: 'north-block' }, query: { day: 'today' } },
    });
    expect(windows?.windows.length).toBeGreaterThan(0);
    expect(windows?.windows.every(({ from, to }) => Date.parse(from) < Date.parse(to))).toBe(true);
  });

  it('taps, reads the tap in the log, and puts the site on stop', async () => {
    const tapped = await client.POST('/v1/sites/{id}/burns', {
      params: { path: { id: 'north-block' } },
      body: { tap: 'lit', by: 'Ana' },
    });
    expect(tapped.response.status).toBe(201);
    const { data: log } = await client.GET('/v1/events', {
      params: { query: { site: 'north-block', types: 'burn-lit' } },
    });
    expect(log?.events.map(({ type, site }) => [type, site])).toEqual([['burn-lit', 'north-block']]);
    const ordered = await client.POST('/v1/orders', {
      body: {
        kind: 'authority-stop',
        name: 'Smoke on the road',
        issuer: 'Fern County fire',
        sites: ['north-block'],
      },
    });
    expect(ordered.response.status).toBe(201);
    const { data: now } = await client.GET('/v1/sites/{id}/now', { params: { path: { id: 'north-block' } } });
    expect(now?.verdict).toBe('stop');
  });

  it('is told what was wrong by the problem that the document names', async () => {
    const { data, error, response } = await client.GET('/v1/sites/{id}/plan', {
      params: { path: { id: 'nowhere' }, query: {} },
    });
    expect([response.status, data, error?.code]).toEqual([404, undefined, 'unknown_site']);
  });
});
