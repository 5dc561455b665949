// Signing in with a personal link on a telephone, without script: open, press, read, sign out.

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../service/keyed.ts';
import { hasBrowser, launch } from './browser.ts';
import { faultsOfAccess } from './faults-of-access.ts';
import { layoutOf } from './layout-faults.ts';

const NOW = '2026-03-03T01:10:00Z';

describe.skipIf(!hasBrowser)('a personal link on a telephone', { timeout: 90_000 }, () => {
  let keyed: Keyed;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  let base = '';
  beforeAll(async () => {
    keyed = await startKeyed(NOW);
    base = await keyed.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    await keyed?.close();
  });
  beforeEach(async () => {
    context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
    page = await context.newPage();
  });
  afterEach(() => context?.close());

  const crew = () => keyed.mint({ name: 'Ana', scopes: ['read', 'observe', 'burn'] });

  it('signs it in at one press, tells nobody the link, and signs it out', async () => {
    const key = await crew();
    const referers: string[] = [];
    page.on('request', (request) => void referers.push(request.headers()['referer'] ?? ''));
    expect((await page.goto(`${base}/sites/north-block`))?.status()).toBe(401);
    expect(await page.getByText('Open the personal link').isVisible()).toBe(true);
    await page.goto(`${base}/sign-in/${key}`);
    const button = page.getByRole('button', { name: 'Sign in on this phone' });
    const box = await button.boundingBox();
    expect(box?.height).toBeGreaterThanOrEqual(64);
    expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(844);
    await button.click();
    expect(page.url()).toBe(`${base}/`);
    const [cookie] = await context.cookies();
    expect(cookie).toMatchObject({ name: 'pitward', value: key, httpOnly: true, sameSite: 'Lax', path: '/' });
    await page.getByRole('link', { name: 'North block, pit 1' }).click();
    expect(await page.getByText('Light-up').first().isVisible()).toBe(true);
    await page.getByRole('link', { name: 'Who is signed in' }).click();
    expect(await page.getByText('Signed in as Ana').first().isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Sign out on this phone' }).click();
    expect(await page.getByText('This phone is signed out.').isVisible()).toBe(true);
    expect(await context.cookies()).toEqual([]);
    expect((await page.goto(`${base}/`))?.status()).toBe(401);
    expect(referers.length).toBeGreaterThan(5);
    for (const referer of referers) expect(referer).not.toContain('pw_');
  });

  it('stays signed in after the browser was closed, until the key is revoked', async () => {
    const key = await crew();
    await page.goto(`${base}/sign-in/${key}?lang=es`);
    await page.getByRole('button', { name: 'Entrar en este teléfono' }).click();
    expect(page.url()).toBe(`${base}/?lang=es`);
    const later = await browser.newContext({ storageState: await context.storageState() });
    const again = await later.newPage();
    expect((await again.goto(`${base}/`))?.status()).toBe(200);
    const prefix = key.slice(3, 11);
    const audit = { atMs: keyed.clock.nowMs, organisation: 'own', who: 'test', what: 'key-revoked' };
    await keyed.store.keys.revoke(prefix, keyed.clock.nowMs, { ...audit, subject: prefix, detail: null });
    await keyed.service.mirror.sync();
    // No box of the browser's own lies over the page: it would keep this from coming back.
    expect((await again.goto(`${base}/`))?.status()).toBe(401);
    await later.close();
  });

  it('can be put into the field of the page that refuses', async () => {
    const key = await crew();
    await page.goto(`${base}/`);
    await page.getByLabel('Or put your link').fill(`https://pits.example/sign-in/${key}`);
    await page.getByRole('button', { name: 'Sign in' }).click();
    expect(page.url()).toBe(`${base}/`);
    expect(await page.getByText('North block').first().isVisible()).toBe(true);
  });

  const pages = async (): Promise<readonly (readonly [string, string])[]> => {
    const key = await keyed.mint({
      name: 'Ana',
      scopes: ['read', 'notify'],
      expiresAtMs: keyed.clock.nowMs + 1e9,
    });
    return [
      ['link', `/sign-in/${key}`],
      ['no link', '/sign-in/nonsense'],
      ['401', '/'],
      ['signed out', '/sign-in?out=1'],
    ];
  };

  it.each(['day', 'night'])('has no fault of access by %s, in one language each', async (look) => {
    const scripted = await browser.newContext({ viewport: { width: 390, height: 844 }, bypassCSP: true });
    const tested = await scripted.newPage();
    // Colours are those of the look, words those of the language: each is seen once.
    for (const lang of look === 'day' ? ['en'] : ['es']) {
      for (const [name, path] of await pages()) {
        await tested.goto(`${base}${path}${path.includes('?') ? '&' : '?'}look=${look}&lang=${lang}`);
        expect([name, lang, await faultsOfAccess(tested)]).toEqual([name, lang, []]);
        for (const width of [320, 390, 1280]) {
          await tested.setViewportSize({ width, height: 844 });
          const { sideways, small } = await layoutOf(tested);
          expect([name, width, sideways <= 0, small]).toEqual([name, width, true, []]);
        }
      }
    }
    await scripted.close();
  });
});
