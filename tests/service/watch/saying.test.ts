// What a person is sent differs by the way: a telephone answers with a digit, a push with the person's own link.

import { randomBytes } from 'node:crypto';
import { expect, it } from 'vitest';
import { createLinkTokens } from '#service/watch/link-tokens.ts';
import { createSaying } from '#service/watch/saying.ts';
import { contactOf, noticeMessage } from '../../builders/contacts.ts';
import { deliveryOf } from '../../builders/watch-records.ts';
import { browser } from '../../notify/open-push.ts';

const tokens = createLinkTokens('secret');

const saidOver = (to: string, asked = true) =>
  createSaying({
    tokens,
    publicUrl: 'https://pits.example',
    stations: { of: () => [] },
    demo: false,
    tally: { unworded: () => undefined },
  }).message(
    noticeMessage(),
    { ...deliveryOf('m1', { to, asked }), id: 'd1', tries: 1, said: null, deliveredAtMs: null },
    contactOf('ana'),
    null,
    { burnOpen: true, standing: null, silences: [] },
  );

const PHONE = browser(randomBytes(16)).subscription('https://push.example/x');

it('a push carries the link to answer by instead of digits that nobody could send back', () => {
  const { text, link } = saidOver(PHONE);
  expect(text).not.toMatch(/1=/);
  const [, token = ''] = /Answer here: https:\/\/pits\.example\/a\/(\S+)$/.exec(text) ?? [];
  expect(tokens.read(token)).toEqual({ message: 'm1', contact: 'ana' });
  expect(link).toBe(`https://pits.example/a/${token}`);
});

it('a push that asks nothing has no link, and a telephone its digits', () => {
  expect(saidOver(PHONE, false)).toMatchObject({ link: null, text: expect.not.stringContaining('http') });
  expect(saidOver('+15550100').text).toMatch(/1=/);
});
