// Words of the command line → a command. Strict: an unknown option is a fault that names the nearest known one.

import { parseArgs } from 'node:util';
import { nearest } from '#core/units/near-word.ts';
import { ServiceError } from '#errors.ts';

export const VERBS = [
  'serve',
  'windows',
  'plan',
  'check',
  'check-config',
  'save',
  'recall',
  'key',
  'work',
  'backup',
  'restore',
  'play',
] as const;
export type Verb = (typeof VERBS)[number];

const OPTIONS = {
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
  config: { type: 'string', short: 'c' },
  demo: { type: 'boolean' },
  port: { type: 'string', short: 'p' },
  'answers-only': { type: 'boolean' },
  'go-back': { type: 'boolean' },
  day: { type: 'string' },
  from: { type: 'string' },
  to: { type: 'string' },
  at: { type: 'string' },
  limits: { type: 'string' },
  forecast: { type: 'string' },
  alerts: { type: 'string' },
  now: { type: 'string' },
  json: { type: 'boolean' },
  units: { type: 'string' },
  lang: { type: 'string' },
  'no-color': { type: 'boolean' },
  name: { type: 'string' },
  role: { type: 'string' },
  link: { type: 'string' },
  calendar: { type: 'boolean' },
  scopes: { type: 'string' },
  sites: { type: 'string' },
  organisation: { type: 'string' },
  expires: { type: 'string' },
  ends: { type: 'string' },
  seed: { type: 'string' },
} as const;

export type OptionName = keyof typeof OPTIONS;

export interface Arguments {
  readonly verb: Verb | null;
  /** Words after the verb. */
  readonly words: readonly string[];
  readonly options: Readonly<Partial<Record<OptionName, string | boolean>>>;
}

/** Options that every verb takes. */
const ALWAYS: ReadonlySet<OptionName> = new Set(['help', 'version']);

/** What the verbs that answer for a site share. */
const SITE_ANSWER: readonly OptionName[] = [
  'config',
  'demo',
  'day',
  'at',
  'limits',
  'forecast',
  'alerts',
  'now',
  'json',
  'units',
  'lang',
  'no-color',
];

/** Options that each verb takes besides. */
const TAKES: Readonly<Record<Verb, readonly OptionName[]>> = {
  serve: ['config', 'demo', 'port', 'answers-only', 'go-back'],
  windows: [...SITE_ANSWER, 'from', 'to'],
  plan: SITE_ANSWER,
  check: SITE_ANSWER,
  'check-config': ['config', 'json', 'no-color'],
  work: ['config', 'go-back'],
  key: [
    'config',
    'name',
    'role',
    'scopes',
    'link',
    'calendar',
    'lang',
    'sites',
    'organisation',
    'expires',
    'ends',
    'json',
  ],
  recall: ['config', 'day', 'now', 'json', 'units', 'lang', 'no-color'],
  save: ['config', 'demo', 'at', 'limits'],
  backup: ['config'],
  restore: ['config'],
  play: ['demo', 'seed', 'json', 'units', 'lang', 'no-color'],
};

/** Throws ServiceError `usage`. */
export function readArguments(args: readonly string[]): Arguments {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(args);
  } catch (cause) {
    const unknown = /Unknown option '(-[^']*)'/.exec(String(cause))?.[1];
    const hint = unknown ? nearest(unknown.replace(/^-+/, ''), Object.keys(OPTIONS)) : null;
    const text = unknown
      ? `unknown option ${unknown}`
      : String(cause instanceof Error ? cause.message : cause);
    throw usage(hint ? `${text}; did you mean --${hint}?` : text);
  }
  const [word, ...words] = parsed.positionals;
  const options = parsed.values as Arguments['options'];
  if (word === undefined) return { verb: null, words: [], options };
  const verb = VERBS.find((v) => v === word);
  if (!verb) {
    const hint = nearest(word, VERBS);
    throw usage(`no command "${word}"${hint ? `; did you mean ${hint}?` : ''}`);
  }
  for (const name of Object.keys(options) as OptionName[]) {
    if (!ALWAYS.has(name) && !TAKES[verb].includes(name)) throw usage(`${verb} takes no --${name}`);
  }
  return { verb, words, options };
}

const parse = (args: readonly string[]) =>
  parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true, strict: true });

export const usage = (message: string): ServiceError => new ServiceError('usage', message);
