// Silences in force, on the page of the site.

import { expect, it } from 'vitest';
import type { Silence } from '#core/notices/silence.ts';
import { sitePage } from '#publish/page/site-page.ts';
import { STORIES, siteView } from './invented-days.ts';
import { wordsOf } from './read-page.ts';

const story = { ...STORIES.go, now: '2026-11-25', clock: '10:10' } as const;
const NOW_MS = Date.parse('2026-11-25T15:10:00Z');
const silence: Silence = {
  ...{ id: 's', site: 'own/heron', code: null, fromMs: NOW_MS, untilMs: NOW_MS + 50 * 60_000 },
  ...{ reason: 'on the <radio>', by: 'Ana & Ben', role: 'office', endedAtMs: null, endedBy: null },
};
const page = (silences: readonly Silence[], language: 'en' | 'es' = 'en') =>
  sitePage({ ...siteView({ ...story, language }), silences });

it('a silence is shown with who, until when on the clock of the site, and why', () => {
  const shown = page([silence]);
  expect(wordsOf(shown)).toContain('No texts go out until 11:00 am , silenced by Ana & Ben: on the <radio>');
  expect(shown).toContain('Ana &amp; Ben: on the &lt;radio&gt;');
  expect(wordsOf(page([silence], 'es'))).toContain(
    'No salen textos hasta 11:00 am , silenciados por Ana & Ben: on the <radio>',
  );
});

it('one of a single thing, or of the crew, is one of some texts; without any nothing is shown', () => {
  for (const change of [{ code: 'wind-shifted' }, { role: 'crew' }] as const) {
    expect(wordsOf(page([{ ...silence, ...change }]))).toContain('Some texts do not go out until 11:00 am');
  }
  expect(wordsOf(page([]))).not.toMatch(/silenced/);
});
