// The form of a contact: who is told, how, in which language, and when not.

import { settingsWords } from '#publish/wording/settings-words.ts';
import { type FormMaker, fieldMaker, listAt, siteOptions } from './form-maker.ts';

export const contactForm: FormMaker = (body, context) => {
  const { language, isNew } = context;
  const { hints, groups } = settingsWords(language);
  const field = fieldMaker('', language);
  const about = [
    ...(isNew ? [field('id', 'id', 'text', { hint: hints.idOf })] : []),
    field('name', 'name', 'text', { required: true }),
    field('role', 'role', 'choice', { words: ['crew', 'office', 'dispatch'] }),
    field('sites', 'sites', 'set', {
      options: siteOptions(body, context),
      all: { option: 'all', writes: undefined },
    }),
    field('language', 'language', 'choice', { words: ['en', 'es'], unsaid: 'en' }),
    field('units', 'units', 'choice', { words: ['us', 'si'], unsaid: 'us' }),
    field('step', 'step', 'number', { unsaid: '0', input: 'numeric' }),
  ];
  const ways = listAt(body, 'ways').map((_, i) => {
    const ofWay = fieldMaker(`ways[${i}]`, language);
    const fields = [
      ofWay('channel', 'channel', 'text', { required: true }),
      ofWay('to', 'address', 'text', { required: true }),
    ];
    return { path: `ways[${i}]`, title: groups.way, fields, removable: true };
  });
  const quiet = [
    field('quiet.from', 'quietFrom', 'text', { input: 'time' }),
    field('quiet.to', 'quietTo', 'text', { input: 'time' }),
  ];
  const consent = [
    field('consent.at', 'consentAt', 'text'),
    field('consent.how', 'consentHow', 'text'),
    field('consent.by', 'consentBy', 'text'),
  ];
  return {
    groups: [
      { path: '', title: groups.about, fields: about, removable: false },
      ...ways,
      { path: 'quiet', title: groups.quiet, fields: quiet, removable: false },
      { path: 'consent', title: groups.consent, fields: consent, removable: false },
    ],
    adds: [{ path: 'ways', kind: 'way', word: groups.way }],
  };
};
