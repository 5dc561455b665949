// Addresses that nobody has: names reserved by RFC 2606, sections 2 and 3, and RFC 6761, section 6 (read from memory).

import { expect, it } from 'vitest';
import { doubtLines, doubtsOf } from '#config/doubts.ts';

it.each([
  'burn-office@example.org',
  'Office <office@Mail.EXAMPLE.com>',
  'https://example.net/contact',
  'office@hollowreed-clearing.example',
  'https://burns.test:8080/',
  'me@localhost',
  'nobody@somewhere.invalid',
  'office@example.com.',
])('a contact at %s is doubted', (contact) => {
  expect(doubtsOf({ contact }).map(({ path }) => path)).toEqual(['contact']);
  expect(doubtLines({ contact })[0]).toContain(`Warning: contact: "${contact}"`);
});

it.each([
  'office@hollowreed.us',
  'example@hollowreed.us',
  'test@hollowreed.us',
  'office@example.org.us',
  'office@my-example.org',
  'https://hollowreed.us/test/example',
  'https://hollowreed.us/?to=localhost',
  '+1 573 555 0134',
])('a contact at %s is not', (contact) => {
  expect(doubtLines({ contact })).toEqual([]);
});
