// The scripts of the pages as they are served: plain JavaScript, small, and other ones for another version.

import { Script } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { glancePage } from '#publish/page/glance-page.ts';
import { sitePage } from '#publish/page/site-page.ts';
import { makePhoneFiles } from '#publish/served/phone-files.ts';
import { siteView } from '../page/invented-days.ts';
import { glanceView } from '../page/invented-glance.ts';
import { LOOKS } from '../page/looks.ts';

const files = makePhoneFiles('1.2.3');
const textOf = (src: string): string => files.scripts.get(src.slice('/s/'.length)) ?? '';
const gzipped = (...texts: string[]): number => texts.reduce((sum, text) => sum + gzipSync(text).length, 0);

describe('the scripts of the pages', () => {
  it('are JavaScript that a browser can read, and import nothing', () => {
    for (const text of [textOf(files.day), textOf(files.glance), files.worker]) {
      expect(() => new Script(text)).not.toThrow();
      expect(text).not.toMatch(/^\s*(import|export) /m);
      expect(text).not.toMatch(/https?:\/\//);
    }
  });

  it('keep a first view within 15 KB compressed: any day with its script, and the glance with all of its own', () => {
    const sizes: Record<string, number> = {};
    for (const [name, story] of Object.entries(LOOKS))
      for (const language of ['en', 'es'] as const) {
        const view = siteView({ ...story, language });
        const page = sitePage({ ...view, phone: { reader: 'abcdefghijkl', scripts: [files.day] } });
        sizes[`${name} ${language}`] = gzipped(page, textOf(files.day));
      }
    for (const language of ['en', 'es'] as const) {
      const page = glancePage(glanceView(language, [files.glance]));
      sizes[`glance ${language}`] = gzipped(page, textOf(files.glance));
    }
    const most = Math.max(...Object.values(sizes));
    if (process.env['PITWARD_SIZES']) console.log(sizes, { worker: gzipped(files.worker) });
    expect(most, JSON.stringify(sizes)).toBeLessThanOrEqual(15 * 1024);
    // With the worker, which comes when all else is there.
    expect(most + gzipped(files.worker)).toBeLessThanOrEqual(60 * 1024);
  });

  it('are named by their content, and the worker is another one for another version of the program', () => {
    const again = makePhoneFiles('1.2.3');
    expect([again.day, again.glance, again.worker]).toEqual([files.day, files.glance, files.worker]);
    const next = makePhoneFiles('1.2.4');
    expect([next.day, next.glance]).toEqual([files.day, files.glance]);
    expect(next.worker).not.toBe(files.worker);
  });
});
