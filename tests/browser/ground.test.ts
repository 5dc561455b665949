// The map with tiles in a browser: ground under the pits, drawn by WebGL; the list without script; nothing for axe to find.

import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTileFile } from '#tiles/tile-file.ts';
import type { Running } from '../service/running.ts';
import { rasterBytes, tileFile, vectorBytes } from '../tiles/invented-tiles.ts';
import { startBoardScene } from './board-scene.ts';
import { hasBrowser, launch } from './browser.ts';
import { layoutOf } from './layout-faults.ts';

const AXE = fileURLToPath(import.meta.resolve('axe-core/axe.min.js'));
const SHOTS = fileURLToPath(new URL('../../.tmp-looks/', import.meta.url));
const draws = process.env['PITWARD_LOOKS'] === 'board';

/** North is up and east is right. */
async function areAsTheyLie(page: Page): Promise<void> {
  const signs = page.locator('#map .maplibregl-marker');
  expect(await signs.count()).toBe(await page.locator('[data-pit]').count());
  const places = await page
    .locator('[data-pit]')
    .evaluateAll((all) => all.map((one) => (one.getAttribute('data-pit') ?? '').split(',').map(Number)));
  const boxes = await Promise.all((await signs.all()).map((sign) => sign.boundingBox()));
  for (const [a, p] of places.entries())
    for (const [b, q] of places.entries()) {
      const [from, to] = [boxes[a], boxes[b]];
      if (!from || !to) throw new Error('a sign is not drawn');
      if ((p[0] ?? 0) > (q[0] ?? 0)) expect(from.y).toBeLessThan(to.y);
      if ((p[1] ?? 0) < (q[1] ?? 0)) expect(from.x).toBeLessThan(to.x);
    }
}

describe.skipIf(!hasBrowser)('the map with tiles in a browser', { timeout: 120_000 }, () => {
  let browser: Browser;
  const grounds: { kind: string; running: Running; base: string; file: string; close(): Promise<void> }[] =
    [];
  beforeAll(async () => {
    browser = await launch();
    mkdirSync(SHOTS, { recursive: true });
    for (const [kind, bytes] of [
      ['raster', rasterBytes()],
      ['vector', vectorBytes()],
    ] as const) {
      const file = tileFile(bytes);
      const tiles = await openTileFile(file, null);
      const running = await startBoardScene({ server: { tiles, mostLoopDelayMs: 60_000 } });
      const base = await running.service.app.listen({ host: '127.0.0.1', port: 0 });
      const close = async () => {
        await running.close();
        await tiles.close();
        rmSync(dirname(file), { recursive: true, force: true });
      };
      grounds.push({ kind, running, base, file, close });
    }
  });
  afterAll(async () => {
    await browser?.close();
    for (const { close } of grounds) await close();
  });

  const opened = async (script: boolean, width = 390): Promise<Page> => {
    const context = await browser.newContext({
      javaScriptEnabled: script,
      viewport: { width, height: 844 },
    });
    return context.newPage();
  };
  const drawn = (page: Page) => page.locator('#map[data-drawn]').waitFor({ timeout: 60_000 });

  it('lays the pits over pictures where they belong, goes nearer by a button, and back to all pits', async () => {
    const page = await opened(true);
    const refused: string[] = [];
    page.on('console', (message) => message.type() === 'error' && refused.push(message.text()));
    await page.goto(`${grounds[0]?.base}/board`);
    await page.getByRole('link', { name: 'Map with roads' }).click();
    await drawn(page);
    await areAsTheyLie(page);
    // On the map, wherever the page was scrolled to.
    const first = async () => {
      const sign = await page.locator('#map .maplibregl-marker').first().boundingBox();
      const map = await page.locator('#map').boundingBox();
      return [sign, map].map((box) => Math.round((box?.x ?? 0) + (box?.y ?? 0))).reduce((a, b) => a - b);
    };
    const before = await first();
    await page.getByRole('button', { name: 'Nearer' }).click();
    await expect.poll(first, { timeout: 30_000 }).not.toBe(before);
    await page.getByRole('button', { name: 'All pits' }).click();
    await expect.poll(first, { timeout: 30_000 }).toBe(before);
    const { sideways, small } = await layoutOf(page);
    expect([sideways, small]).toEqual([0, []]);
    expect(await page.locator('#map-holes').isVisible()).toBe(false);
    expect(refused).toEqual([]);
    if (draws) await page.screenshot({ path: `${SHOTS}ground-raster.png`, fullPage: true });
    await page.context().close();
  });

  it('and over lines, by night', async () => {
    const page = await opened(true, 1280);
    const tiles: number[] = [];
    page.on('response', (answer) => answer.url().includes('/board/tiles/') && tiles.push(answer.status()));
    await page.goto(`${grounds[1]?.base}/board/map?look=night`);
    await drawn(page);
    await areAsTheyLie(page);
    expect(tiles).toContain(200);
    expect(await page.locator('#map-holes').isVisible()).toBe(false);
    if (draws) await page.screenshot({ path: `${SHOTS}ground-vector-night.png`, fullPage: true });
    await page.context().close();
  });

  it('without script is the list of pits, and says where a map is', async () => {
    const page = await opened(false);
    for (const query of ['lang=en', 'lang=es&look=night']) {
      await page.goto(`${grounds[0]?.base}/board/map?${query}`);
      expect(await page.locator('[data-pit]').count()).toBeGreaterThan(1);
      expect(await page.locator('#map p').isVisible()).toBe(true);
      for (const width of [320, 390, 1280]) {
        await page.setViewportSize({ width, height: 844 });
        const { sideways, small } = await layoutOf(page);
        expect([sideways, small], `${query} ${width}`).toEqual([0, []]);
      }
    }
    await page.context().close();
  });

  it('has nothing against it by axe, in either look and either language', async () => {
    const context = await browser.newContext({ bypassCSP: true, viewport: { width: 390, height: 844 } });
    const page = await context.newPage();
    for (const query of ['look=day&lang=en', 'look=night&lang=es']) {
      await page.goto(`${grounds[0]?.base}/board/map?${query}`);
      await drawn(page);
      await page.addScriptTag({ content: readFileSync(AXE, 'utf8') });
      const { violations } = await page.evaluate(async () => {
        const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        return axe.run({ runOnly: tags, resultTypes: ['violations'] });
      });
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.html).join(' | ')}`)).toEqual([]);
    }
    await context.close();
  });

  it('is nowhere without a tile file', async () => {
    const scene = await startBoardScene();
    const inject = (url: string) => scene.service.app.inject({ url });
    expect((await inject('/board/map')).statusCode).toBe(404);
    expect((await inject('/board')).body).not.toContain('/board/map');
    await scene.close();
  });

  it('has no tile outside of its ground', async () => {
    const { running, base } = grounds[0] ?? {};
    expect(base).toBeDefined();
    const of = async (path: string) => (await running?.service.app.inject({ url: path }))?.statusCode;
    expect(await of('/board/tiles/any/0/0/0')).toBe(200);
    expect(await of('/board/tiles/any/0/1/0')).toBe(404);
    expect(await of('/board/tiles/any/99/0/0')).toBe(404);
    expect(await of('/board/s/../../package.json')).toBe(404);
    expect(await of('/board/s/maplibre-gl.mjs')).toBe(404);
  });
});
