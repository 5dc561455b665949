// The form of a limit set: a group of fields for each of its rows, by the kind of the row.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { settingsWords } from '#publish/wording/settings-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { valueAt } from './body-path.ts';
import type { Field, Group } from './form-field.ts';
import { type FormMaker, fieldMaker, listAt } from './form-maker.ts';

type RowKind = 'element' | 'clock' | 'season' | 'category';

/** Directions are judged against protected places, never as a figure. */
const LIMITED = (Object.keys(ELEMENTS) as Element[]).filter((e) => !/Direction$/.test(e));
const WIND = new Set<unknown>(['windSpeed', 'windGust']);

export const limitForm: FormMaker = (body, { language }) => {
  const { groups } = settingsWords(language);
  const adds = [
    ['element', groups.limit],
    ['clock', groups.clock],
    ['season', groups.season],
    ['category', groups.category],
  ] as const;
  return {
    groups: listAt(body, '').map((_, i) => rowGroup(body, `[${i}]`, language)),
    adds: adds.map(([kind, word]) => ({ path: '', kind, word })),
  };
};

/** What a new row begins with. */
export const NEW_LIMITS: Readonly<Record<RowKind, object>> = {
  element: { element: 'windSpeed', source: '' },
  clock: { clock: {}, source: '' },
  season: { season: {}, source: '' },
  category: { ventilationCategory: { unit: 'kt-ft', onBound: 'lower' }, atLeast: {}, source: '' },
};

function rowGroup(body: unknown, path: string, language: Language): Group {
  const { groups } = settingsWords(language);
  const has = (key: string): boolean => valueAt(body, `${path}.${key}`) !== undefined;
  if (has('clock')) return group(path, groups.clock, clockFields(path, language));
  if (has('season')) return group(path, groups.season, seasonFields(path, language));
  if (has('ventilationCategory')) return group(path, groups.category, categoryFields(path, language));
  const element = valueAt(body, `${path}.element`);
  const named = wordsFor(language).elements[element as Element];
  const title = named === undefined ? groups.limit : upperFirst(named);
  return group(path, title, elementFields(path, WIND.has(element), language));
}

const group = (path: string, title: string, fields: readonly Field[]): Group => ({
  path,
  title,
  fields,
  removable: true,
});

function elementFields(path: string, isWind: boolean, language: Language): Field[] {
  const { elements } = wordsFor(language);
  const { hints } = settingsWords(language);
  const field = fieldMaker(path, language);
  return [
    field('element', 'element', 'choice', { options: LIMITED.map((e) => [e, elements[e]] as const) }),
    field('atLeast.hold', 'atLeastHold', 'text', { hint: hints.quantity }),
    field('atLeast.stop', 'atLeastStop', 'text'),
    field('atMost.hold', 'atMostHold', 'text'),
    field('atMost.stop', 'atMostStop', 'text'),
    field('when', 'when', 'choice', { words: ['always', 'day', 'night'], unsaid: 'always' }),
    field('source', 'source', 'text', { required: true, hint: hints.source }),
    field('inclusive', 'inclusive', 'flag'),
    ...(isWind ? [field('height', 'height', 'text'), field('averaging', 'averaging', 'text')] : []),
  ];
}

function clockFields(path: string, language: Language): Field[] {
  const field = fieldMaker(path, language);
  return [
    field('clock.lightFrom', 'lightFrom', 'text', { input: 'time' }),
    field('clock.lastChargeBy', 'lastChargeBy', 'text', { input: 'time' }),
    field('clock.outBy', 'outBy', 'text', { input: 'time' }),
    field('source', 'source', 'text', { required: true, hint: settingsWords(language).hints.source }),
  ];
}

function seasonFields(path: string, language: Language): Field[] {
  const { hints } = settingsWords(language);
  const field = fieldMaker(path, language);
  return [
    field('season.from', 'seasonFrom', 'text', { hint: hints.monthDay }),
    field('season.to', 'seasonTo', 'text', { hint: hints.monthDay }),
    field('verdict', 'verdict', 'choice', { words: ['stop', 'hold'], unsaid: 'stop' }),
    field('source', 'source', 'text', { required: true, hint: hints.source }),
  ];
}

function categoryFields(path: string, language: Language): Field[] {
  const { hints } = settingsWords(language);
  const field = fieldMaker(path, language);
  const units = ['kt-ft', 'mph-ft', 'm²/s'].map((unit) => [unit, unit] as const);
  return [
    field('ventilationCategory.table', 'table', 'text'),
    field('ventilationCategory.unit', 'unit', 'choice', { options: units }),
    field('ventilationCategory.bounds', 'bounds', 'numbers', { hint: hints.words }),
    field('ventilationCategory.onBound', 'onBound', 'choice', { words: ['lower', 'upper'] }),
    field('atLeast.hold', 'categoryHold', 'number', { input: 'numeric' }),
    field('atLeast.stop', 'categoryStop', 'number', { input: 'numeric' }),
    field('when', 'when', 'choice', { words: ['always', 'day', 'night'], unsaid: 'always' }),
    field('source', 'source', 'text', { required: true, hint: hints.source }),
  ];
}
