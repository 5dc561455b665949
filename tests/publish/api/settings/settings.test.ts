// The settings as a whole: who may look, who may change, what is refused, and which page may run a script. CSP 3 (script-src,
// connect-src fall back to default-src).

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../../service/keyed.ts';
import { createHand } from './forms.ts';

let keyed: Keyed;
let key = '';
beforeAll(async () => {
  keyed = await startKeyed('2026-03-03T01:10:00Z');
  key = await keyed.mint({ name: 'Marit', scopes: ['admin'] });
});
afterAll(() => keyed.close());

const hand = () => createHand(keyed, () => key);

describe('the settings', () => {
  it('may be looked at and not changed by others', async () => {
    const admin = key;
    key = await keyed.mint({ scopes: ['read'] });
    for (const url of ['/settings', '/settings/limits/valley', '/settings/sites/north-block']) {
      const { status, body } = await hand().open(url);
      expect([url, status]).toEqual([url, 200]);
      expect(body).not.toContain('<button');
      expect(body).not.toContain('/settings/contacts');
    }
    expect((await hand().open('/settings/contacts/marit')).status).toBe(403);
    expect((await hand().open('/settings/limits')).status).toBe(403);
    const form = { action: '/settings/limits', fields: { id: 'valley', revision: '1', content: '[]' } };
    for (const action of ['/settings/limits', '/settings/limits/save', '/settings/limits/week'])
      expect((await hand().send({ ...form, action })).status).toBe(403);
    key = admin;
  });

  it.each([
    { content: 'no JSON' },
    { revision: 'r1' },
    { content: '['.repeat(9) + ']'.repeat(9) },
    { id: 'nowhere' },
  ])('refuse a form that is none of ours: %j', async (more) => {
    const fields = { id: 'valley', revision: '1', content: '[]', ...more };
    const { status } = await hand().send({ action: '/settings/limits', fields: fields as never });
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
  });

  it('carry a script on the one page that asks while somebody types, and no other source of one', async () => {
    const policy = async (url: string) => {
      const { headers, body } = await keyed.service.app.inject({
        url,
        headers: { cookie: `pitward=${key}` },
      });
      return [String(headers['content-security-policy']), body.includes('<script')] as const;
    };
    const [own, has] = await policy('/settings/limits/valley');
    expect(has).toBe(true);
    expect(own).toContain("default-src 'none';script-src 'self';connect-src 'self'");
    for (const url of [
      '/settings',
      '/settings/limits',
      '/settings/sites/north-block',
      '/settings/contacts/marit',
    ]) {
      const [other, scripted] = await policy(url);
      expect([url, scripted, other.includes('script-src')]).toEqual([url, false, false]);
      expect(other).toContain("default-src 'none'");
    }
    const { headers, body } = await keyed.service.app.inject({
      url: '/settings/live.js',
      headers: { cookie: `pitward=${key}` },
    });
    expect(headers['content-type']).toBe('text/javascript; charset=utf-8');
    expect(() => new Function(body)).not.toThrow();
  });
});
