// The settings in a browser: on a telephone without script, and with it the week that moves while somebody types.

import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../service/keyed.ts';
import { hasBrowser, launch } from './browser.ts';
import { faultsOfAccess } from './faults-of-access.ts';
import { layoutOf } from './layout-faults.ts';

const PHONE = { width: 390, height: 844 };

describe.skipIf(!hasBrowser)('the settings in a browser', { timeout: 180_000 }, () => {
  let keyed: Keyed;
  let browser: Browser;
  let base = '';
  beforeAll(async () => {
    keyed = await startKeyed('2026-03-03T01:10:00Z');
    base = await keyed.service.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    await keyed?.close();
  });

  const signedIn = async (options: Parameters<Browser['newContext']>[0]): Promise<[BrowserContext, Page]> => {
    const context = await browser.newContext({ viewport: PHONE, ...options });
    const page = await context.newPage();
    await page.goto(`${base}/sign-in/${await keyed.mint({ name: 'Marit', scopes: ['admin'] })}`);
    await page.getByRole('button').first().click();
    return [context, page];
  };
  const gust = (page: Page) => page.locator('[name="[1].atMost.hold"]');
  const textOf = async (page: Page, selector: string) =>
    ((await page.locator(selector).textContent()) ?? '').replaceAll(/\s+/g, ' ');

  it('change a limit with the thumb, without script: seen, then saved', async () => {
    const [context, page] = await signedIn({ javaScriptEnabled: false });
    await page.goto(`${base}/`);
    await page.getByRole('link', { name: 'Settings' }).click();
    await page.getByRole('link', { name: 'valley' }).click();
    await gust(page).fill('18');
    await page.getByRole('button', { name: 'Show what this does' }).first().click();
    expect(await page.getByText('Nothing was saved.').isVisible()).toBe(true);
    await gust(page).fill('18 mph');
    await page.getByRole('button', { name: 'Show what this does' }).last().click();
    expect(await page.getByText('20 mph → 18 mph').isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Change it further' }).click();
    expect(await gust(page).inputValue()).toBe('18 mph');
    await gust(page).fill('19 mph');
    await page.getByRole('button', { name: 'Show what this does' }).last().click();
    await page.getByRole('button', { name: 'Save exactly this' }).click();
    expect(await page.getByText('Saved, and in force.').isVisible()).toBe(true);
    expect(await gust(page).inputValue()).toBe('19 mph');
    await context.close();
  });

  it('show the week of what is typed while it is typed, the same as the preview, and hide one that is not known', async () => {
    const [context, page] = await signedIn({});
    const refused: string[] = [];
    page.on('console', (message) => void (message.type() === 'error' && refused.push(message.text())));
    await page.goto(`${base}/settings/limits/valley`);
    expect(await page.locator('#week').isVisible()).toBe(false);
    await gust(page).fill('9 mph');
    await page.locator('#week').getByText('days change').first().waitFor();
    const live = await textOf(page, '#week');
    await page.route('**/settings/limits/week*', (route) => route.abort());
    const failed = page.waitForEvent('requestfailed');
    await gust(page).fill('10 mph');
    await failed;
    expect(await page.locator('#week').isVisible()).toBe(false);
    await page.unroute('**/settings/limits/week*');
    await gust(page).fill('9 mph');
    await page.getByRole('button', { name: 'Show what this does' }).last().click();
    const preview = await textOf(page, 'main');
    const week = live.slice(live.indexOf('The coming week'));
    expect(week.length).toBeGreaterThan(500);
    expect(preview).toContain(week.trim());
    expect(refused.filter((text) => /Content Security Policy/i.test(text))).toEqual([]);
    await context.close();
  });

  it.each(['day', 'night'])('have no fault of access by %s, and fit every screen', async (look) => {
    const [context, page] = await signedIn({ bypassCSP: true });
    /** The box itself is small; the words beside it belong to its target. */
    const isBox = (element: string): boolean => / 24 x 24$/.test(element);
    const hold = async (name: string) => {
      expect([name, await faultsOfAccess(page)]).toEqual([name, []]);
      for (const width of [320, 390, 1280]) {
        await page.setViewportSize({ width, height: 844 });
        const { sideways, small } = await layoutOf(page);
        expect([name, width, sideways <= 0, small.filter((e) => !isBox(e))]).toEqual([name, width, true, []]);
      }
    };
    // Colours are those of the look, words those of the language: each is seen once.
    for (const lang of look === 'day' ? ['en'] : ['es']) {
      const query = `?look=${look}&lang=${lang}`;
      for (const path of ['', '/orders', '/sites/north-block', '/contacts/teo']) {
        await page.goto(`${base}/settings${path}${query}`);
        await hold(`${path} ${lang}`);
      }
      await page.goto(`${base}/settings/limits/hills${query}`);
      await gust(page).fill('9 mph');
      await page.locator('#week h3').first().waitFor();
      await hold(`limits while typing ${lang}`);
      await page.locator('button[value=preview]').last().click();
      await hold(`preview ${lang}`);
      await page.getByRole('button').last().click();
      await gust(page).fill('9');
      await page.locator('button[value=preview]').last().click();
      await hold(`faults ${lang}`);
    }
    await context.close();
  });
});
