// RFC 6265bis: Set-Cookie (4.1), the prefix __Host- (4.1.3.2), no more than 400 days (5.5).

import { describe, expect, it } from 'vitest';
import { cookieKey, setCookie, signInCookieName } from '#publish/access/sign-in-cookie.ts';

const KEY = `pw_abcdefgh_${'A'.repeat(43)}`;
const NOW_MS = Date.parse('2026-03-03T01:10:00Z');

describe('the cookie', () => {
  it('is for this host alone and goes over HTTPS only, where it came by HTTPS', () => {
    const told = { nowMs: NOW_MS, endsMs: null };
    const most = 400 * 86_400;
    expect(setCookie(KEY, { ...told, isSecure: true })).toBe(
      `__Host-pitward=${KEY}; Max-Age=${most}; Path=/; HttpOnly; SameSite=Lax; Secure`,
    );
    expect(setCookie(KEY, { ...told, isSecure: false })).toBe(
      `pitward=${KEY}; Max-Age=${most}; Path=/; HttpOnly; SameSite=Lax`,
    );
  });

  it.each([
    [1000, 1],
    [90 * 86_400_000, 90 * 86_400],
    [500 * 86_400_000, 400 * 86_400],
    [-1, 0],
  ])('of a key that ends in %d ms lasts %d s', (ms, seconds) => {
    const cookie = setCookie(KEY, { isSecure: true, nowMs: NOW_MS, endsMs: NOW_MS + ms });
    expect(cookie).toContain(`; Max-Age=${seconds};`);
  });

  it.each([
    [`pitward=${KEY}`, false, KEY],
    [`other=1; pitward=${KEY};  more=2`, false, KEY],
    [`__Host-pitward=${KEY}`, true, KEY],
    // Another host of the same domain can set the plain name.
    [`pitward=${KEY}`, true, null],
    [`__Host-pitward=${KEY}`, false, null],
    [`pitward=${KEY}; pitward=other`, false, null],
    [`not-pitward=${KEY}`, false, null],
    [`pitward =${KEY}`, false, null],
    [`pitward=${'x'.repeat(9000)}`, false, null],
    ['', false, null],
  ])('is found in "%s" (HTTPS: %s): %s', (header, isSecure, key) => {
    expect(cookieKey(header, isSecure)).toBe(key);
  });

  it('has another name by HTTPS than in the clear', () => {
    expect(signInCookieName(true)).not.toBe(signInCookieName(false));
    expect(cookieKey(undefined, true)).toBeNull();
  });
});
