// The form of a site: where it is, its limits, shifts, burn, protected places and margins. Stations, alerts, texts and what the
// watch goes by are kept as written.

import { settingsWords } from '#publish/wording/settings-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { valueAt } from './body-path.ts';
import type { Field, Group } from './form-field.ts';
import { type FormContext, type FormMaker, fieldMaker, listAt } from './form-maker.ts';

const DAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

export const siteForm: FormMaker = (body, context) => {
  const { groups } = settingsWords(context.language);
  return {
    groups: [
      alone('', groups.about, aboutFields(context)),
      ...shiftPaths(body).map((path, _, all) => shiftGroup(path, all.length > 1, context.language)),
      ...listAt(body, 'protected').map((_, i) => placeGroup(`protected[${i}]`, context.language)),
      ...figureGroups(context.language),
    ],
    adds: [
      { path: 'protected', kind: 'place', word: groups.protected },
      { path: 'shift', kind: 'shift', word: groups.shift },
    ],
  };
};

const alone = (path: string, title: string, fields: readonly Field[]): Group => ({
  path,
  title,
  fields,
  removable: false,
});

function aboutFields({ language, limitSets, isNew }: FormContext): Field[] {
  const { hints } = settingsWords(language);
  const field = fieldMaker('', language);
  return [
    ...(isNew ? [field('id', 'id', 'text', { hint: hints.idOf })] : []),
    field('name', 'name', 'text', { required: true }),
    field('at', 'at', 'numbers', { hint: hints.at }),
    field('timeZone', 'timeZone', 'text', { hint: 'America/Los_Angeles' }),
    field('limits', 'limits', 'choice', { options: limitSets.map((set) => [set, set] as const) }),
  ];
}

/** One shift may be written without a list. */
const shiftPaths = (body: unknown): string[] =>
  Array.isArray(valueAt(body, 'shift')) ? listAt(body, 'shift').map((_, i) => `shift[${i}]`) : ['shift'];

function shiftGroup(path: string, removable: boolean, language: Language): Group {
  const { groups, hints } = settingsWords(language);
  const field = fieldMaker(path, language);
  const fields = [
    field('days', 'days', 'set', { words: DAYS }),
    field('from', 'shiftFrom', 'text', { input: 'time' }),
    field('to', 'shiftTo', 'text', { input: 'time' }),
    field('holidays', 'holidays', 'words', { hint: `2026-12-25. ${hints.words}` }),
  ];
  return { path, title: groups.shift, fields, removable };
}

function placeGroup(path: string, language: Language): Group {
  const { groups, hints } = settingsWords(language);
  const field = fieldMaker(path, language);
  const fields = [
    field('name', 'name', 'text', { required: true }),
    field('bearing', 'bearing', 'numbers', { hint: '80, 140' }),
    field('within', 'within', 'text', { hint: '0.5 mi' }),
    field('at', 'placeAt', 'numbers', { hint: hints.at }),
    field('margin', 'margin', 'number', { input: 'numeric' }),
    field('verdict', 'verdict', 'choice', { words: ['stop', 'hold'], unsaid: 'stop' }),
  ];
  return { path, title: groups.protected, fields, removable: true };
}

function figureGroups(language: Language): Group[] {
  const { groups } = settingsWords(language);
  const field = fieldMaker('', language);
  return [
    alone('daylight', groups.daylight, [
      field('daylight', 'daylight', 'choice', { options: nightOptions(language) }),
      field('daylight.lightUpAfterSunrise', 'lightUpAfterSunrise', 'text', { hint: '1 h' }),
      field('daylight.outBeforeSunset', 'outBeforeSunset', 'text', { hint: '1 h' }),
    ]),
    alone('burn', groups.burn, [
      field('burn.warmUp', 'warmUp', 'text', { hint: '10 min' }),
      field('burn.kindling', 'kindling', 'text', { hint: '20 min' }),
      field('burn.burnDown', 'burnDown', 'text', { hint: '60 min' }),
      field('burn.cover', 'cover', 'text', { hint: '30 min' }),
      field('burn.shortestRun', 'shortestRun', 'text', { hint: '2 h' }),
    ]),
    alone('smoke', groups.smoke, [
      field('smoke.reach', 'reach', 'text', { hint: '2 mi' }),
      field('smoke.unsureBelow', 'unsureBelow', 'text', { hint: '3 kt' }),
      field('smoke.margin', 'margin', 'number', { hint: '20', input: 'numeric' }),
    ]),
    alone('windShift', groups.turn, [
      field('windShift.atLeast', 'turnAtLeast', 'number', { hint: '45', input: 'numeric' }),
      field('windShift.atLeastSpeed', 'turnAtLeastSpeed', 'text', { hint: '5 kt' }),
      field('windShift.withinHours', 'turnWithinHours', 'number', { hint: '1, 2', input: 'numeric' }),
    ]),
    alone('quality', groups.age, [
      field('quality.warnAfter', 'warnAfter', 'text', { hint: '8 h' }),
      field('quality.holdAfter', 'holdAfter', 'text', { hint: '14 h' }),
      field('quality.alertsHoldAfter', 'alertsHoldAfter', 'text', { hint: '2 h' }),
    ]),
    alone('gustFromWind', groups.gust, [
      field('gustFromWind.factor', 'gustFactor', 'number'),
      field('gustFromWind.source', 'gustSource', 'text'),
    ]),
  ];
}

function nightOptions(language: Language): (readonly [string, string])[] {
  const { options } = settingsWords(language);
  return [
    ['', options['byDay'] ?? ''],
    ['none', options['none'] ?? ''],
  ];
}
