import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { sitePage } from '#publish/page/site-page.ts';
import { english } from '#publish/wording/en.ts';
import { spanish } from '#publish/wording/es.ts';
import { alert, STORIES, siteView } from './invented-days.ts';
import { hasWord, wordsOf } from './read-page.ts';

const HOSTILE = `<script>alert("1")</script><img src=x onerror='a()'>&`;
const names = Object.keys(STORIES) as (keyof typeof STORIES)[];

describe('every site page', () => {
  it('carries the caution, and the demo band where it is a demo', () => {
    for (const name of names) {
      const page = wordsOf(sitePage(siteView(STORIES[name])));
      expect(page).toContain(english.demo);
      expect(page).toContain(english.caution);
      expect(wordsOf(sitePage(siteView({ ...STORIES[name], demo: false })))).not.toContain(english.demo);
    }
  });

  it('needs no script and lets no name and no alert bring one', () => {
    const story = {
      ...STORIES.stopDay,
      name: HOSTILE,
      place: HOSTILE,
      alerts: [alert(HOSTILE, HOSTILE, '2026-11-25')],
    };
    const view = siteView(story);
    const fault = { code: 'x', message: HOSTILE, at: view.plan.workedOutAt };
    const page = sitePage({
      ...view,
      forecast: { ...view.forecast, fault },
      query: { day: HOSTILE, look: HOSTILE },
    });
    expect(page).not.toMatch(/<script|<img/i);
    expect(wordsOf(page)).toContain(HOSTILE);
    expect(page).not.toMatch(/="[^"]*"[^\s>/][^>]*>/);
  });

  it('stays within 15 KB compressed in both languages', () => {
    for (const name of names) {
      for (const language of ['en', 'es'] as const) {
        expect(gzipSync(sitePage(siteView({ ...STORIES[name], language }))).length).toBeLessThan(15 * 1024);
      }
    }
  });

  it('has headings in order', () => {
    for (const name of names) {
      const levels = [...sitePage(siteView(STORIES[name])).matchAll(/<h([1-6])/g)].map((m) => Number(m[1]));
      const jumps = levels.filter((level, i) => level > (levels[i - 1] ?? 0) + 1);
      expect([levels[0], jumps]).toEqual([1, []]);
    }
  });

  it('in Spanish has no English label', () => {
    const pairs = [
      ...Object.entries(english.labels).map(
        ([key, text]) => [text, spanish.labels[key as keyof typeof spanish.labels]] as const,
      ),
      ...Object.values(english.orders).map((text) => [text, ''] as const),
      ...Object.values(english.verdicts).map((text) => [text, ''] as const),
      ...Object.values(english.elements).map((text) => [text, ''] as const),
      [english.cannotSay, ''] as const,
      [english.caution, ''] as const,
      [english.demo, ''] as const,
    ];
    for (const name of names) {
      const page = sitePage(siteView({ ...STORIES[name], language: 'es' }));
      const text = wordsOf(page.replace(/<(span|blockquote) lang="en">.*?<\/\1>/g, ''));
      expect(page).toContain('<html lang="es"');
      expect(pairs.filter(([en, es]) => en !== es && hasWord(text, en))).toEqual([]);
    }
  });
});
