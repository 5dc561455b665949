// Personal links, cookies and pasted keys are planted wherever signing in takes them; then every line of the log, at its most
// talkative, every metric and every answer is searched for them. OWASP Top 10 2021, A09; CWE-532, CWE-598 (in addresses).

import { afterAll, beforeAll, expect, it } from 'vitest';
import { createLogger } from '#cli/logger.ts';
import { type Keyed, startKeyed } from '../../service/keyed.ts';
import { orderBody } from '../access/fitting-request.ts';
import { SECRETS, traces } from './planted.ts';

const lines: string[] = [];
const answers: { request: string; text: string }[] = [];
let keyed: Keyed;
let url = '';
let key = '';

beforeAll(async () => {
  keyed = await startKeyed('2026-03-03T01:10:00Z', {
    logger: createLogger('trace', { write: (line) => void lines.push(line) }),
  });
  key = await keyed.mint({ scopes: ['admin'] });
  url = await keyed.service.app.listen({ host: '127.0.0.1', port: 0 });
});
afterAll(() => keyed.close());

const OWN = { 'sec-fetch-site': 'same-origin', accept: 'text/html' };

async function ask(method: string, path: string, headers: Record<string, string> = {}, body?: object) {
  const type = body === undefined ? {} : { 'content-type': 'application/json' };
  const response = await fetch(`${url}${path}`, {
    ...{ method, redirect: 'manual', headers: { ...type, ...headers } },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  // The key goes out in one place: the cookie that is set.
  const told = [...response.headers].filter(([name]) => name !== 'set-cookie').map((pair) => pair.join(': '));
  answers.push({ request: `${method} ${path}`, text: `${told.join('\n')}\n${await response.text()}` });
  return response;
}

const status = async (...asked: Parameters<typeof ask>) => (await ask(...asked)).status;

it('links carry them', async () => {
  const { unknownKey, query } = SECRETS;
  expect(await status('GET', `/sign-in/${key}`, OWN)).toBe(200);
  expect(await status('GET', `/sign-in/${key}?lang=es&x=${query}`, OWN)).toBe(200);
  expect(await status('GET', `/sign-in/${unknownKey}`, OWN)).toBe(404);
  expect(await status('POST', `/sign-in/${unknownKey}`, OWN)).toBe(404);
  expect(await status('POST', `/sign-in/${key}`)).toBe(403);
  expect(await status('GET', `/sign-in/${key}/${unknownKey}`, OWN)).toBe(401);
  expect(await status('GET', `/sign-in/${key}/${unknownKey}`, { authorization: `Bearer ${key}` })).toBe(404);
  expect(await status('DELETE', `/sign-in/${key}`, { authorization: `Bearer ${key}` })).toBe(404);
  expect(await status('GET', `/sign-in/${'a'.repeat(390)}${key}`, OWN)).toBe(404);
  const pressed = await ask('POST', `/sign-in/${key}`, OWN);
  expect([pressed.status, pressed.headers.get('set-cookie')]).toEqual([303, expect.stringContaining(key)]);
});

it('fields carry them', async () => {
  const { unknownKey, body } = SECRETS;
  expect(await status('POST', '/sign-in', OWN, { key: unknownKey })).toBe(404);
  expect(await status('POST', '/sign-in', OWN, { key: [body, key] })).toBe(400);
  expect(await status('POST', '/sign-in', OWN, { key: key.repeat(60) })).toBe(400);
  expect(await status('POST', '/sign-in', OWN, { key })).toBe(303);
});

it('cookies carry them', async () => {
  for (const secret of [key, SECRETS.unknownKey]) {
    const cookie = { cookie: `other=${SECRETS.cookie}; pitward=${secret}` };
    const told = secret === key ? 200 : 401;
    expect(await status('GET', '/', { ...cookie, accept: 'text/html' })).toBe(told);
    expect(await status('GET', '/metrics', cookie)).toBe(told);
    expect(await status('GET', '/sign-in', cookie)).toBe(200);
    expect(await status('GET', `/v1/sites/${secret}/windows`, cookie)).toBe(secret === key ? 404 : 401);
    expect(await status('POST', '/v1/orders', cookie, orderBody('X'))).toBe(403);
    expect(await status('POST', '/sign-out', { ...cookie, ...OWN })).toBe(303);
  }
});

it('no line of the log, no metric and no answer has any', async () => {
  expect(await status('GET', '/metrics', { authorization: `Bearer ${key}` })).toBe(200);
  expect(answers.at(-1)?.text).toContain('route="/sign-in/:key"');
  expect(answers.length).toBeGreaterThan(25);
  expect(lines.length).toBeGreaterThan(10);
  const found = [...lines, ...answers.map(({ request, text }) => `${request.length} ${text}`)].flatMap(
    (text) => traces(text, key).map((name) => ({ name, text })),
  );
  expect(found).toEqual([]);
});
