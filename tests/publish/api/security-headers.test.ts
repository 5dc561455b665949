// Headers for browsers: pages carry all that helmet sets, data what does something to data.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Running, startRunning } from '../../service/running.ts';

let running: Running;
beforeAll(async () => {
  running = await startRunning('2026-03-03T01:10:00Z');
});
afterAll(() => running.close());

const headersOf = async (url: string) => (await running.service.app.inject({ url })).headers;

/** Twice: the first answer is made, the second was kept. */
const DATA = [
  '/v1/sites',
  '/v1/sites/north-block/windows?day=tomorrow',
  '/v1/sites/north-block/windows?day=tomorrow',
  '/v1/sites/nowhere/windows',
  '/v1/nowhere',
  '/%',
  '/metrics',
  '/healthz',
  '/openapi.json',
];

describe('answers of data', () => {
  it.each(DATA)('%s cannot be run, framed or embedded elsewhere', async (url) => {
    const headers = await headersOf(url);
    // Fetch standard (nosniff; CORP), Content Security Policy 3 (frame-ancestors is no part of default-src).
    expect(headers).toMatchObject({
      'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
      'cross-origin-resource-policy': 'same-origin',
      'x-content-type-options': 'nosniff',
    });
    expect(headers['x-request-id']).toMatch(/^[\w-]{8,}$/);
    expect(String(headers['content-type'])).not.toMatch(/html|script|xml/);
  });

  it('carry no header that only pages need', async () => {
    const { 'x-request-id': id, date, ...headers } = await headersOf('/v1/sites/north-block/windows');
    expect(id).toBeDefined();
    expect(Object.keys(headers).sort()).toEqual([
      'cache-control',
      'connection',
      'content-length',
      'content-security-policy',
      'content-type',
      'cross-origin-resource-policy',
      'etag',
      'x-content-type-options',
    ]);
  });

  it.each(DATA)('%s says how long it may be kept', async (url) => {
    const { 'cache-control': cache } = await headersOf(url);
    expect(cache).toMatch(/^(no-cache|no-store)$/);
  });
});

describe('pages', () => {
  /** A page with a form may send to this service alone. */
  const FORM = ['same-origin', "'self'"] as const;
  const NONE = ['no-referrer', "'none'"] as const;
  it.each([
    ['/', FORM],
    ['/sites/north-block', NONE],
    ['/sites/nowhere', NONE],
    ['/docs', NONE],
    ['/?look=dusk', NONE],
  ] as const)('%s carry them all', async (url, [referrer, forms]) => {
    const headers = await headersOf(url);
    expect(headers['content-type']).toBe('text/html; charset=utf-8');
    expect(headers).toMatchObject({
      'cache-control': 'no-cache',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
      'referrer-policy': referrer,
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
    });
    const csp = new Map(
      String(headers['content-security-policy'])
        .split(';')
        .map((rule) => [rule.split(' ')[0], rule.split(' ').slice(1).join(' ')]),
    );
    expect(Object.fromEntries(csp)).toEqual({
      'default-src': "'none'",
      'style-src': "'unsafe-inline'",
      'img-src': 'data:',
      'base-uri': "'none'",
      'form-action': forms,
      'frame-ancestors': "'none'",
    });
  });
});
