// The form of a burn ban or another local order.

import { settingsWords } from '#publish/wording/settings-words.ts';
import { type FormMaker, fieldMaker, siteOptions } from './form-maker.ts';

export const orderForm: FormMaker = (body, context) => {
  const { language } = context;
  const { hints, groups } = settingsWords(language);
  const field = fieldMaker('', language);
  const fields = [
    field('name', 'name', 'text', { required: true }),
    field('issuer', 'issuer', 'text', { required: true }),
    field('place', 'place', 'text'),
    field('sites', 'sites', 'set', {
      options: siteOptions(body, context),
      all: { option: 'all', writes: 'all' },
    }),
    field('from', 'from', 'text', { hint: hints.orderMoment }),
    field('to', 'to', 'text', { hint: hints.orderMoment }),
    field('verdict', 'verdict', 'choice', { words: ['stop', 'hold'], unsaid: 'stop' }),
  ];
  return { groups: [{ path: '', title: groups.about, fields, removable: false }], adds: [] };
};
