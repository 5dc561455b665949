// Domains: the pages named in carrier-domains.ts. Form of an address: RFC 5321, section 4.1.2, its plain part only.

import { describe, expect, it } from 'vitest';
import { carrierFault } from '#notify/carrier-domains.ts';
import { email, emailSettings } from '#notify/email.ts';
import { isMailAddress } from '#notify/mail-address.ts';
import { never, outgoingOf, testDeps } from './deps.ts';

describe('an address', () => {
  it.each([
    '5550100@vtext.com',
    '5550100@TXT.ATT.NET',
    '5550100@mms.att.net',
    '5550100@tmomail.net',
    '5550100@vzwpix.com',
    'x@sub.tmomail.net',
  ])('%s of a carrier is refused with a reason, and no server is called', async (to) => {
    const deps = testDeps({ resolve: () => Promise.reject(new Error('nobody is called')) });
    const settings = emailSettings.parse({ kind: 'email', host: 'mail.invalid', from: 'a@orchard.example' });
    const made = await email(settings, deps).send(outgoingOf(deps.clock, { to }), never());
    expect(made).toMatchObject({ kind: 'failed', reason: 'forbidden-address', permanent: 'way' });
    expect(made.kind === 'failed' && made.detail).toMatch(/turns mail into texts no longer/);
  });

  it.each(['a@att.net', 'a@verizon.net', 'a@nottmomail.net', 'a@google.com'])(
    '%s is an ordinary one',
    (to) => {
      expect(carrierFault(to)).toBeNull();
    },
  );

  it.each([
    ['foreman@orchard.example', true],
    ["o'brien+pit@sub.orchard.example", true],
    ['a@b', false],
    ['a b@c.example', false],
    ['a@c.example, b@c.example', false],
    ['Foreman <a@c.example>', false],
    ['a@c.example\r\nRCPT TO:<b@c.example>', false],
    ['a..b@c.example', false],
    ['"a b"@c.example', false],
    ['@c.example', false],
    ['a@[127.0.0.1]', false],
    ['a@c.example\n', false],
  ])('%j is one plain address: %s', (text, isOne) => {
    expect(isMailAddress(text)).toBe(isOne);
  });
});
