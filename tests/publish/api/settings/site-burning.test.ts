// A site is not taken out while a pit burns there: nobody would watch it any more.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../../service/keyed.ts';
import { wordsOf } from '../../page/read-page.ts';
import { createHand } from './forms.ts';

let keyed: Keyed;
let key = '';
beforeAll(async () => {
  keyed = await startKeyed('2026-03-03T01:10:00Z');
  key = await keyed.mint({ name: 'Marit', scopes: ['admin'] });
});
afterAll(() => keyed.close());

describe('a site where a pit burns', () => {
  const call = async (method: 'POST' | 'DELETE', url: string, payload?: object, more = {}) => {
    const headers = { authorization: `Bearer ${key}`, ...more };
    const { statusCode, body } = await keyed.service.app.inject({
      ...{ method, url, headers },
      ...(payload ? { payload } : {}),
    });
    return { status: statusCode, body: body === '' ? {} : JSON.parse(body) };
  };

  it('is not taken out, neither on the page nor through the API, until the pit is covered', async () => {
    const url = '/v1/sites/ridge-block';
    const takesOut = () => call('DELETE', url, undefined, { 'if-match': '"r1"' });
    const { body: burn } = await call('POST', `${url}/burns`, { tap: 'lit', by: 'Ana' });
    expect(await takesOut()).toMatchObject({
      status: 409,
      body: { code: 'in_use', usedBy: [`burn ${burn.id}`], detail: expect.stringContaining('still burns') },
    });
    const out = await createHand(keyed, () => key).type('/settings/sites/ridge-block', { do: 'take-out' });
    const refused = await createHand(keyed, () => key).save(out);
    expect(refused.status).toBe(409);
    expect(wordsOf(refused.body)).toContain(
      `A pit still burns there (burn ${burn.id}). It can be taken out once that is covered.`,
    );
    expect(wordsOf(refused.body)).not.toContain('still named by');
    expect((await call('POST', `${url}/burns/${burn.id}/taps`, { tap: 'covered' })).status).toBe(201);
    const after = await takesOut();
    expect(JSON.stringify(after)).not.toContain(burn.id);
  });
});
