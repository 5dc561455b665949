// A change of a definition is in force in the very next answer, whatever was kept of answers before.

import { afterEach, describe, expect, it } from 'vitest';
import { type Running, startRunning } from './running.ts';

const NOW = '2026-03-03T01:10:00Z';
const WINDOWS = '/v1/sites/north-block/windows?day=tomorrow';
const PLAN = '/v1/sites/north-block/plan?day=tomorrow';
let running: Running;
afterEach(() => running.close());

type Method = 'GET' | 'PUT' | 'POST' | 'DELETE';

async function ask(method: Method, url: string, body?: unknown, headers: Record<string, string> = {}) {
  const response = await running.service.app.inject({
    method,
    url,
    headers,
    ...(body === undefined ? {} : { payload: body as object }),
  });
  return { status: response.statusCode, etag: String(response.headers['etag']), body: response.body };
}

const verdicts = async (address = WINDOWS): Promise<string[]> => {
  const { body } = await ask('GET', address);
  return (JSON.parse(body).windows as { verdict: string }[]).map((w) => w.verdict);
};

/** No wind is little enough: with these nothing is ever go. */
const NEVER = [{ element: 'windSpeed', atMost: { hold: '0 mph' }, source: 'county' }];

describe('an answer that was kept', () => {
  it('does not outlive a stricter limit', async () => {
    running = await startRunning(NOW);
    expect(await verdicts()).toContain('go');
    const { etag } = await ask('GET', '/v1/limit-sets/valley');
    expect((await ask('PUT', '/v1/limit-sets/valley', NEVER, { 'if-match': etag })).status).toBe(200);
    expect(await verdicts()).not.toContain('go');
  });

  it('does not come back with a site that was taken out and put in again under other limits', async () => {
    running = await startRunning(NOW);
    // The same question in several addresses, each with an answer that was kept.
    const addresses = ['', '&units=us', '&units=si'].flatMap((units) =>
      ['', '&lang=en', '&lang=es'].map((lang) => `${WINDOWS}${units}${lang}`),
    );
    for (const address of addresses) expect(await verdicts(address)).toContain('go');
    const { etag, body } = await ask('GET', '/v1/sites/north-block/definition');
    const site = JSON.parse(body).body as Record<string, unknown>;
    expect((await ask('DELETE', '/v1/sites/north-block', undefined, { 'if-match': etag })).status).toBe(204);
    expect((await ask('POST', '/v1/limit-sets', { never: NEVER })).status).toBe(201);
    let revision = 3;
    expect((await ask('POST', '/v1/sites', { ...site, limits: 'never' })).status).toBe(201);
    // However often it changes from then on.
    for (const address of addresses) {
      expect(await verdicts(address)).not.toContain('go');
      const renamed = { ...site, limits: 'never', name: `North block ${revision}` };
      const given = { 'if-match': `"r${revision}"` };
      expect((await ask('PUT', '/v1/sites/north-block', renamed, given)).status).toBe(200);
      revision += 1;
    }
  });

  it('does not outlive a shorter shift', async () => {
    running = await startRunning(NOW);
    const times = async () => {
      const { lightUp, coveredBy } = JSON.parse((await ask('GET', PLAN)).body);
      return { lightUp, coveredBy };
    };
    const before = await times();
    const { etag, body } = await ask('GET', '/v1/sites/north-block/definition');
    const site = JSON.parse(body).body as { shift: object };
    const shorter = { ...site, shift: { ...site.shift, from: '10:00', to: '14:00' } };
    expect((await ask('PUT', '/v1/sites/north-block', shorter, { 'if-match': etag })).status).toBe(200);
    const after = await times();
    expect(before.lightUp).toBe('2026-03-03T09:00:00-08:00');
    // The crew comes at ten, and the curtain takes ten minutes to warm up.
    expect(after).toEqual({ lightUp: '2026-03-03T10:10:00-08:00', coveredBy: '2026-03-03T14:00:00-08:00' });
  });

  it('does not come back when the clock is set back to before it was made', async () => {
    running = await startRunning(NOW);
    const plan = '/v1/sites/north-block/plan?day=2026-03-03';
    const standing = async () => JSON.parse((await ask('GET', plan)).body).standing as string;
    expect(await standing()).toBe('ahead');
    const lightUpMs = Date.parse(JSON.parse((await ask('GET', plan)).body).lightUp);
    running.clock.nowMs = lightUpMs + 60_000;
    await running.service.keeper.pullAll();
    expect(await standing()).toBe('light');
    running.clock.nowMs = lightUpMs - 3_600_000;
    expect(await standing()).not.toBe('light');
  });
});

describe('changes', () => {
  it('name the revision that they replace, or are refused', async () => {
    running = await startRunning(NOW);
    expect((await ask('PUT', '/v1/limit-sets/valley', NEVER)).status).toBe(428);
    expect((await ask('PUT', '/v1/limit-sets/valley', NEVER, { 'if-match': '"r9"' })).status).toBe(412);
    expect((await ask('DELETE', '/v1/limit-sets/valley', undefined, { 'if-match': '"r1"' })).status).toBe(
      409,
    );
  });

  it('sent twice with one idempotency key act once; with another body they are refused', async () => {
    running = await startRunning(NOW);
    const send = (name: string) =>
      ask('POST', '/v1/limit-sets', { [name]: NEVER }, { 'idempotency-key': 'first-try' });
    const first = await send('never');
    const again = await send('never');
    expect([first.status, again.status, again.body]).toEqual([201, 201, first.body]);
    expect((await send('other')).status).toBe(422);
    const { body } = await ask('GET', '/v1/limit-sets/never/history');
    expect(JSON.parse(body).definitions).toHaveLength(1);
  });

  it('from a page of another site change nothing', async () => {
    running = await startRunning(NOW);
    const headers = { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' };
    expect((await ask('POST', '/v1/limit-sets', { never: NEVER }, headers)).status).toBe(403);
  });

  it('that cannot be judged are refused with paths', async () => {
    running = await startRunning(NOW);
    const slip = [{ element: 'windSped', atMost: { hold: '9 mph' }, source: 'us' }];
    const { status, body } = await ask('POST', '/v1/limit-sets', { slip });
    expect([status, JSON.parse(body).code]).toEqual([400, 'bad_body']);
    expect(JSON.parse(body).faults.length).toBeGreaterThan(0);
  });

  it('a burn ban entered through the API holds at once', async () => {
    running = await startRunning(NOW);
    const ban = { name: 'County burn ban', issuer: 'county', from: '2026-03-02' };
    expect((await ask('POST', '/v1/orders', ban)).status).toBe(201);
    const found = await verdicts();
    expect(found.every((v) => v === 'stop')).toBe(true);
  });
});
