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
    ['/sites/nowhere', NONE],
    ['/docs', NONE],
    ['/?look=dusk', NONE],
  ] as const)('%s carry them all', async (url, [referrer, forms]) => {
    const headers = await headersOf(url);
    expect(headers['content-type']).toBe('text/html; charset=utf-8');
    expect(headers).toMatchObject({
      'cache-control': 'no-store',
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

  it.each(['/sites/north-block', '/sites/north-block/now'])(
    '%s takes scripts from here alone, and asks nobody else',
    async (url) => {
      const headers = await headersOf(url);
      const csp = String(headers['content-security-policy']).split(';').sort();
      expect(csp.filter((rule) => !rule.startsWith('form-action'))).toEqual([
        "base-uri 'none'",
        "connect-src 'self'",
        "default-src 'none'",
        "frame-ancestors 'none'",
        "img-src 'self' data:",
        "manifest-src 'self'",
        "script-src 'self'",
        "style-src 'unsafe-inline'",
        "worker-src 'self'",
      ]);
      expect(headers).toMatchObject({ 'cache-control': 'no-store', 'x-frame-options': 'DENY' });
    },
  );
});

describe('a page', () => {
  // RFC 9111, 4: history may show what no-cache lets a browser keep; 5.2.2.5: no-store forbids keeping it.
  it.each(['/', '/sites/north-block', '/sites/north-block/now', '/settings', '/nowhere'])(
    '%s is not there to go back to when somebody else has signed in',
    async (url) => {
      expect((await headersOf(url))['cache-control']).toBe('no-store');
    },
  );
});

describe('the files of the pages', () => {
  it('are named by their content and kept for good; the worker is asked for anew, and may ask this service', async () => {
    const page = await running.service.app.inject({ url: '/sites/north-block' });
    const src = /<script src="([^"]+)"/.exec(page.body)?.[1] ?? '';
    const script = await running.service.app.inject({ url: src });
    expect(script.headers).toMatchObject({
      'content-type': 'text/javascript; charset=utf-8',
      'cache-control': 'public, max-age=31536000, immutable',
      'x-content-type-options': 'nosniff',
    });
    const worker = await running.service.app.inject({ url: '/sw.js' });
    expect(worker.headers).toMatchObject({
      'content-type': 'text/javascript; charset=utf-8',
      'cache-control': 'no-cache',
      'content-security-policy': "default-src 'none'; connect-src 'self'",
    });
    const manifest = await running.service.app.inject({ url: '/manifest.webmanifest' });
    expect(manifest.json()).toMatchObject({ name: 'Pitward', start_url: '/', display: 'standalone' });
    const gone = await running.service.app.inject({ url: '/s/aaaaaaaaaaaaaaaa.js' });
    expect(gone.statusCode).toBe(404);
  });
});
