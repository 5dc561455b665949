// Whatever is written in a configuration file goes through a form untouched: nobody loses a key by opening a page.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readConfig } from '#config/load.ts';
import { typedBody } from '#publish/api/settings/typed-body.ts';
import { valueAt } from '#publish/page/settings/body-path.ts';
import { type Form, shownOf } from '#publish/page/settings/form-field.ts';
import { FORMS } from '#publish/page/settings/forms.ts';
import type { SettingsKind } from '#publish/wording/settings-words.ts';
import { writtenDefinitions } from '#service/written-definitions.ts';

const KIND_OF = { site: 'sites', 'limit-set': 'limits', order: 'orders', contact: 'contacts' } as const;
const files = ['../../../../fixtures/config/example.yaml', '../../../../config/demo.yaml'];
const bodies = files.flatMap((file) => {
  const { written } = readConfig(readFileSync(new URL(file, import.meta.url), 'utf8'), file);
  return writtenDefinitions(written).map(
    ({ kind, id, body }) => [`${kind} ${id} of ${file}`, KIND_OF[kind], body] as const,
  );
});

const context = (language: 'en' | 'es') => ({
  language,
  sites: [['north-block', 'North block']] as const,
  limitSets: ['valley'],
  isNew: false,
});
const formOf = (kind: SettingsKind, body: unknown, language: 'en' | 'es' = 'en') =>
  FORMS[kind](body, context(language));

/** As a browser sends a form in which nothing was touched. */
function untouched(form: Form, body: unknown): Record<string, string> {
  const sent: Record<string, string> = {};
  for (const field of form.groups.flatMap(({ fields }) => fields)) {
    const shown = shownOf(field, body);
    if (typeof shown !== 'string') for (const value of shown) sent[`${field.path}:${value}`] = 'on';
    else if (field.kind !== 'flag' || shown !== '') sent[field.path] = shown;
  }
  return sent;
}

describe('a form in which nothing was touched', () => {
  it.each(bodies)('gives %s to the byte', (_, kind, body) => {
    expect(bodies.length).toBeGreaterThan(8);
    for (const language of ['en', 'es'] as const) {
      const form = formOf(kind, body, language);
      expect(JSON.stringify(typedBody(form, body, untouched(form, body)))).toBe(JSON.stringify(body));
    }
  });
});

describe('a form in which one field was touched', () => {
  it.each(bodies)('changes that field of %s alone', (_, kind, body) => {
    const form = formOf(kind, body);
    const sent = untouched(form, body);
    for (const field of form.groups.flatMap(({ fields }) => fields)) {
      // A plain index may be written as a number, and is typed as text: both are read alike.
      if (field.kind !== 'text' || typeof valueAt(body, field.path) === 'number') continue;
      const made = typedBody(form, body, { ...sent, [field.path]: 'typed' });
      const again = typedBody(formOf(kind, made), made, {
        ...untouched(formOf(kind, made), made),
        [field.path]: String(shownOf(field, body)),
      });
      expect([field.path, again]).toEqual([field.path, body]);
    }
  });
});

describe('what is typed', () => {
  const site = {
    id: 'a',
    name: 'A',
    at: [36.4, -120.2],
    limits: 'valley',
    shift: { days: ['mon'], from: '07:00', to: '17:00' },
  };
  const typed = (more: Record<string, string>) => {
    const form = formOf('sites', site);
    return typedBody(form, site, { ...untouched(form, site), ...more }) as Record<string, unknown>;
  };

  it('as a number is one, and what is none stays as it was typed, to be told', () => {
    expect(typed({ at: '36.5, -120' })['at']).toEqual([36.5, -120]);
    expect(typed({ at: 'here, -120' })['at']).toEqual(['here', -120]);
    expect(typed({ 'windShift.atLeast': '60' })['windShift']).toEqual({ atLeast: 60 });
    expect(typed({ 'windShift.atLeast': 'much' })['windShift']).toEqual({ atLeast: 'much' });
  });

  it('as a name and cleared is kept empty, to be told; what may be left out is left out', () => {
    expect(typed({ name: ' ' })['name']).toBe('');
    expect('timeZone' in typed({ timeZone: '' })).toBe(false);
  });
});
