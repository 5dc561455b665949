// Texts in English. None of the words that end or begin a subscription stands in them: what is STOP on a page is PUT IT
// OUT here, and answers are digits.

import { conditionsEn } from './conditions-en.ts';
import { findingsEn } from './findings-en.ts';
import type { MovedTime, TextWords } from './text-words.ts';

const moved = (word: string, { at, was }: MovedTime): string =>
  was === null ? `${word} ${at}` : `${word} ${at} (was ${was})`;

const told = (what: string, at: string, by: string | null): string =>
  by === null ? `${what} at ${at}.` : `${what} at ${at}, told by ${by}.`;

const ORDINALS = ['1st', '2nd', '3rd'];

export const wordsEn: TextWords = {
  ...conditionsEn,
  lit: { stop: 'PUT IT OUT', hold: 'NO WOOD', go: 'NOTE' },
  unlit: { stop: 'NO FIRE', hold: 'DO NOT LIGHT', go: 'NOTE' },
  duties: {
    'last-charge-soon': 'LAST WOOD',
    'last-charge-due': 'NO MORE WOOD',
    'cover-due': 'COVER THE PIT',
    'not-covered-by-dusk': 'COVER THE PIT',
    'look-again': 'LOOK AT THE PIT',
  },
  forCrew: (order, brief) => `${brief ? 'Crew' : 'For crew'}: ${order}`,
  notAnswered: ['NO ANSWER FROM CREW. CALL THEM.', 'NO ANSWER.'],
  again: 'Again:',
  worse: 'Worse:',
  eased: 'Eased:',
  unsteady: 'Unsteady:',
  still: 'Still:',
  over: (topic, at, brief) => `Over ${brief ? '' : 'at '}${at}: ${topic}.`,
  unsure: (topic) => `Cannot tell now: ${topic}.`,
  lastKnown: 'Cannot tell now; last:',
  corrected: (topic, at, brief) =>
    brief ? `Taken back, not over: ${topic}.` : `Taken back at ${at}: ${topic}. Nobody says it is over.`,
  onlyByPlan: ['Wood only by plan and eye.', 'Wood only by plan.'],
  pit: (lit, nth) => {
    const at = nth === null ? lit : `${lit} (${ORDINALS[nth - 1] ?? `${nth}th`})`;
    return [`Pit lit ${at}`, `Pit ${at}`];
  },
  bases: { observed: 'observed', forecast: 'forecast', record: 'recorded', order: 'ordered' },
  smoke: (to, brief) => (brief ? `Smoke ${to}.` : `Smoke goes ${to}.`),
  smokeAnywhere: 'Smoke may go anywhere.',
  more: (count) => `+${count} more.`,
  reply: ['Answer 1=got it, 2=cannot, call me.', '1=got it 2=cannot,call me.', '1=ok 2=cannot.'],
  replyMail: (url) => `Answer here: ${url}`,
  cautionShort: 'They decide.',
  caution: ['Crew on site decides.', 'Crew decides.', 'Crew decides.'],
  until: (clock, brief) => (brief ? `Till ${clock}` : `Valid until ${clock}.`),
  silenced: (until, by, all) => {
    const bare = `${all ? 'Texts' : 'Some texts'} silenced until ${until}`;
    const brief = `${all ? 'No texts' : 'Not all texts'} to ${until}.`;
    return [by === '' ? `${bare}.` : `${bare} by ${by}.`, `${bare}.`, brief];
  },
  compass: ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'],
  weekdays: { mon: 'Mon', tue: 'Tue', wed: 'Wed', thu: 'Thu', fri: 'Fri', sat: 'Sat', sun: 'Sun' },
  elements: {
    windSpeed: 'wind',
    windGust: 'gust',
    windDirection: 'wind from',
    relativeHumidity: 'humidity',
    temperature: 'temperature',
    dewPoint: 'dew point',
    skyCover: 'sky cover',
    mixingHeight: 'mixing height',
    transportWindSpeed: 'transport wind',
    transportWindDirection: 'transport wind from',
    probabilityOfPrecipitation: 'chance of rain',
    quantitativePrecipitation: 'rain',
    probabilityOfThunder: 'chance of thunder',
    lightningActivityLevel: 'lightning level',
    dispersionIndex: 'dispersion index',
    lowVisibilityIndex: 'low-visibility index',
    redFlagThreat: 'red-flag index',
    ventilationRate: 'ventilation',
    vapourPressureDeficit: 'vapour deficit',
  },
  limit: (element, value, at, bound, side) =>
    `forecast ${element} ${value}${at === null ? '' : ` at ${at}`}, limit ${side === 'atLeast' ? 'at least ' : ''}${bound}`,
  findings: findingsEn,
  day: {
    today: 'today',
    go: 'GO',
    cannotSay: 'CANNOT SAY',
    same: ['Same as last evening.', 'Same.'],
    changed: 'CHANGED.',
    was: (word) => `Was ${word}.`,
    lightUp: (time, by) => `${moved('Light', time)}${by === null ? '' : moved(' to', by)}`,
    lastCharge: (time) => moved('last wood', time),
    coveredBy: (time) => moved('covered by', time),
    times: (light, last, covered) => `Light ${light}, wood to ${last}, cover ${covered}.`,
    pause: (from, to) => `no wood ${from} to ${to}`,
    pauses: (count) => `${count === 1 ? 'a pause' : `${count} pauses`}, see plan`,
    tightest: (limit) => `Tightest: ${limit}.`,
  },
  drill: [
    'DRILL. Nothing has happened. We only see whether texts reach you.',
    'DRILL. Nothing has happened.',
  ],
  taps: {
    lit: (at, by) => told('Pit lit', at, by),
    charging: (at, by) => told('Wood goes in since', at, by).replace('since at', 'since'),
    'burning-down': (at, by) => told('Last wood in, burning down', at, by),
    covered: (at, by) => told('Pit covered', at, by),
    'put-out-early': (at, by) => told('Pit put out early', at, by),
  },
  office: {
    order: 'SEE TO IT',
    'opted-out': (name) => `${name} wants no more texts: reach them another way.`,
    'opted-in': (name) => `${name} gets texts again.`,
    'not-delivered': (name) => `A warning did not reach ${name}: call them.`,
    'not-answered': (name) =>
      name === null
        ? 'Nobody answers a warning: call the crew.'
        : `${name} does not answer a warning: call them.`,
    cannot: (name) => `${name} cannot do what a warning asked: call them.`,
    wrote: (name, text) => `${name} writes: "${text}"`,
  },
  fallback: (order) =>
    `Pitward: ${order}. A warning about a pit could not be worded. Look at the page or call the office now. Crew on site decides.`,
  site: 'Site',
};
