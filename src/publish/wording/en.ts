// English. Short, in the trade's words; every sentence carries its number.

import type { LimitFigures } from '#core/rules/finding.ts';
import { limitAmounts, movesUp } from './limit-amounts.ts';
import {
  amountText,
  bearingText,
  clockText,
  clockTextOf,
  differenceText,
  distanceText,
  durationText,
  momentText,
  numberText,
  pointText,
} from './show.ts';
import { upperFirst } from './text-case.ts';
import type { Reader, Sentences, Words } from './words.ts';

const elements: Words['elements'] = {
  windSpeed: 'wind',
  windGust: 'gust',
  windDirection: 'wind direction',
  relativeHumidity: 'humidity',
  temperature: 'temperature',
  dewPoint: 'dew point',
  skyCover: 'sky cover',
  mixingHeight: 'mixing height',
  transportWindSpeed: 'transport wind',
  transportWindDirection: 'transport wind direction',
  probabilityOfPrecipitation: 'chance of rain',
  quantitativePrecipitation: 'rain',
  probabilityOfThunder: 'chance of thunder',
  lightningActivityLevel: 'lightning activity level',
  dispersionIndex: 'dispersion index',
  lowVisibilityIndex: 'low-visibility index',
  redFlagThreat: 'red-flag threat index',
  ventilationRate: 'ventilation rate',
  vapourPressureDeficit: 'vapour pressure deficit',
};

const whyMissing: Words['whyMissing'] = {
  none: 'no reason known',
  gap: 'the forecast has a gap',
  'null-value': 'the forecast left it blank',
  'out-of-range': 'the forecast value is absurd',
  contradictory: 'the forecast contradicts itself',
  'part-covered': 'the forecast covers only part of the hour',
  ended: 'the forecast for it ends before this hour',
  'layer-absent': 'the forecast does not carry it',
  'layer-empty': 'the office has not filled it in',
  'unit-unknown': 'its unit is not known',
  'layer-unreadable': 'it cannot be read',
};

const limitText = (f: LimitFigures, reader: Reader): string => {
  const { value, bound } = limitAmounts(f, reader);
  const at = momentText(f.atMs, reader.timeZone, reader.language, reader.day);
  const derived = f.derived ? ', derived' : '';
  const category = f.category === null ? '' : ` (category ${f.category})`;
  const side = f.side === 'atMost' ? 'at most' : 'at least';
  return `${upperFirst(elements[f.element])} ${value}${category} at ${at}${derived}; limit ${side} ${bound} (${f.source}).`;
};

const open = (openEnded: boolean): string => (openEnded ? ' No end is given.' : '');

const sentences: Sentences = {
  'within-limits': () => 'Every limit is met.',
  'over-limit': limitText,
  'under-limit': limitText,
  'not-judged': () => 'Nothing has judged this time.',
  'input-unusable': (f) => `What is judged by is no number: ${f.what.join(', ')}.`,
  'element-missing': (f) => `No ${elements[f.element]}: ${whyMissing[f.why]}.`,
  'before-forecast': (f, r) =>
    `The forecast at hand begins at ${momentText(f.beginsMs, r.timeZone, r.language, r.day)}; before that nothing can be said.`,
  'beyond-horizon': (f, r) =>
    `Too far to say: the forecast ends ${momentText(f.endsMs, r.timeZone, r.language, null)}.`,
  'forecast-aging': (f) =>
    `The forecast is ${durationText(f.ageMin)} old; a new one is due (warned after ${durationText(f.warnAfterMin)}).`,
  'forecast-stale': (f) =>
    `No fresh forecast: this one is ${durationText(f.ageMin)} old, more than ${durationText(f.holdAfterMin)}.`,
  'forecast-undated': () => 'The forecast does not say when it was made.',
  'forecast-ahead': (f) =>
    `The forecast is stamped ${durationText(f.aheadMin)} ahead of this clock; read as made now.`,
  'forecast-future': (f) =>
    `The forecast is stamped ${durationText(f.aheadMin)} in the future; it cannot be trusted.`,
  'forecast-faults': (f) =>
    `The forecast has ${f.count} odd ${f.count === 1 ? 'entry' : 'entries'} (${f.kinds.join(', ')}); hours whose value could not be used are not judged.`,
  'official-alert': (f) => {
    const possible = f.possible ? ' It may concern a neighbouring zone only.' : '';
    return `${f.event}, ${f.sender || 'issuer not named'}.${possible}${open(f.openEnded)}`;
  },
  'alerts-unknown': (f) => {
    if (f.why === 'never-read') return 'Official alerts have not been read.';
    if (f.why === 'incomplete') return 'Official alerts could not be read in full.';
    if (f.why === 'future') return 'Official alerts were read by a clock that runs ahead.';
    return `Official alerts were last read ${durationText(f.ageMin)} ago.`;
  },
  'grid-hazard': (f) =>
    f.event === null
      ? `The forecast grid flags a hazard (${f.phenomenon === null ? 'kind not given' : `${f.phenomenon}.${f.significance}`}); look at the official alerts.`
      : `The forecast grid flags a ${f.event}.`,
  'grid-weather': (f) =>
    `The forecast grid names ${f.weather.replaceAll('_', ' ')}${f.coverage ? ` (${f.coverage.replaceAll('_', ' ')})` : ''}.`,
  'local-order': (f) => `${f.name}, by ${f.issuer}.${open(f.openEnded)}`,
  'authority-stop': (f) => `Authority stop, ${f.issuer}: ${f.name}. It stands until it is lifted.`,
  'season-ban': (f) => `Closed season, ${f.from} to ${f.to} (${f.source}).`,
  dark: () => 'Dark: no fire between sunset and sunrise.',
  'soon-after-sunrise': (f, r) =>
    `No light-up until ${durationText(f.afterMin)} after sunrise (${clockText(f.sunriseMs, r.timeZone)}).`,
  'near-sunset': (f, r) =>
    `Out by ${durationText(f.beforeMin)} before sunset (${clockText(f.sunsetMs, r.timeZone)}).`,
  'off-shift': () => 'No shift: nobody is there to tend a fire.',
  'warming-up': (f) => `The blower runs ${durationText(f.warmUpMin)} before light-up.`,
  'clock-before': (f) => `No light-up before ${clockTextOf(f.clock)} (${f.source}).`,
  'clock-charge': (f) => `No wood added after ${clockTextOf(f.clock)} (${f.source}).`,
  'clock-out': (f) => `Out by ${clockTextOf(f.clock)} (${f.source}).`,
  'smoke-reaches': (f, r) =>
    `Smoke goes toward ${pointText(f.smokeToDeg, 'en')} to ${f.place}, ${distanceText(f.distanceM, r.units, r.language)} away (wind from ${bearingText(f.windFromDeg, 'en')}).`,
  'smoke-unsure': (f, r) =>
    `Wind ${amountText('windSpeed', f.windSpeedMps, r.units, r.language, f.belowMps)}, under ${amountText('windSpeed', f.belowMps, r.units, r.language)}: too light to say where smoke goes (${f.places.join(', ')}).`,
  'wind-shift': (f, r) => {
    const turn = `Wind turns ${numberText(f.turnDeg, 0, r.language)}° about ${momentText(f.atMs, r.timeZone, r.language, r.day)}, from ${pointText(f.fromDeg, 'en')} to ${pointText(f.toDeg, 'en')} at ${amountText('windSpeed', f.windSpeedMps, r.units, r.language)}`;
    return f.place === null ? `${turn}.` : `${turn}; smoke then reaches ${f.place}.`;
  },
  'burn-down-ahead': (f, r) =>
    `A charge now would not be out and covered by ${momentText(f.atMs, r.timeZone, r.language, r.day)}: that takes ${durationText(f.neededMin)}.`,
  'short-run': (f) =>
    `Only ${durationText(f.lengthMin)} of go; less than ${durationText(f.neededMin)} is not worth lighting.`,
  'plan-ends': () =>
    'The go lasts on, farther than this plan looks; the plan of the next day says until when.',
};

export const english: Words = {
  sentences,
  elements,
  whyMissing,
  verdicts: { go: 'GO', hold: 'HOLD', stop: 'STOP' },
  orders: {
    go: 'May light, may charge.',
    hold: 'Do not light. If lit: add no wood, keep the curtain up, stay with the pit.',
    stop: 'No fire: put it down and cover.',
  },
  cannotSay: "CAN'T SAY",
  caution:
    'A forecast is not a permit: your permit, burn bans, the fire authority and the eye on site decide. Follow local rules and licensed practice.',
  demo: 'DEMO: invented sites and an invented forecast',
  labels: {
    allSites: 'All sites',
    lightUp: 'Light-up from',
    lightUpBy: 'At the latest',
    mayLightUntil: 'Light-up at the latest',
    lastCharge: 'Last charge',
    coveredBy: 'Covered by',
    burnedDown: 'Burned down',
    warmUp: 'Engine on',
    today: 'Today',
    tomorrow: 'Tomorrow',
    theDay: 'The day',
    whyTheseTimes: 'Why these times',
    whyNotBefore: 'Why not before',
    whyStopCharging: 'Why stop charging at',
    whyNone: 'Why no window',
    wouldChange: 'What would change it',
    everyHour: 'Every hour as a table',
    windows: 'Windows',
    hour: 'Hour',
    smokeGoesToward: 'Smoke goes toward',
    forecastMade: 'Forecast made',
    fetched: 'fetched',
    workedOut: 'worked out',
    nextDue: 'next looked for by',
    nextDays: 'Next seven days',
    noWindow: 'no window',
    missing: 'missing',
    derived: 'derived',
    siteTime: 'site time',
    noForecast: 'No forecast at hand',
    from: 'from',
    until: 'until',
    otherLanguage: 'Español',
    otherUnits: 'Metric',
    voidAfter: 'This answer is void after',
    now: 'Now',
    advice: 'Worth knowing',
    nightLook: 'Night look',
    dayLook: 'Day look',
    usUnits: 'US units',
    answer: 'Answer',
    notFresh: 'Not fresh enough to light on.',
    lastFault: 'The last try to get a forecast failed',
    noMoreWoodSince: 'Add no more wood, since',
    nextWindow: 'Next window',
    pause: 'Pause: add no wood',
    whateverTheValues: 'This bars the day whatever the values do:',
    allOfThese: 'The nearest hour needs all of these:',
    dotsAre: 'Dots: dark or no shift.',
    outOfLimit: 'Bold and double underlined: outside of a limit.',
    noSites: 'No site is set up.',
    choices: 'Look, units and language',
    alertsRead: 'alerts read',
    besides: 'Besides',
    eachOwnTime: "Times are each site's own.",
  },
  tightest: (f, r) => {
    const { value, bound, room } = limitAmounts(f, r);
    const at = momentText(f.atMs, r.timeZone, r.language, r.day);
    const side = f.side === 'atMost' ? 'at most' : 'at least';
    const gap = f.room >= 0 ? `${room} of room` : `${room} beyond`;
    return `Tightest: ${elements[f.element]} ${value} at ${at}, ${gap} (${side} ${bound}, ${f.source}).`;
  },
  move: (f, moveBy, towards, r) => {
    const by = differenceText(f.element, moveBy, r.units, r.language);
    const at = momentText(f.atMs, r.timeZone, r.language, r.day);
    const { value } = limitAmounts(f, r);
    const word = movesUp(f, towards) ? 'higher' : 'lower';
    return towards === 'go'
      ? `${upperFirst(elements[f.element])} at ${at} would have to be ${by} ${word} than ${value}.`
      : `${upperFirst(elements[f.element])} ${by} ${word} than ${value} at ${at} would make that hour a ${towards}.`;
  },
  nextChange: (atMs, to, r) =>
    `Next change: ${to.toUpperCase()} from ${momentText(atMs, r.timeZone, r.language, r.day)}.`,
  burnDown: (min) => `${durationText(min)} to burn down after the last charge.`,
  cover: (min) => `${durationText(min)} to cover with soil.`,
  warmUp: (min) => `${durationText(min)} of blower before light-up.`,
  tooLateToLight: (untilMs, r) =>
    `Too late to light. If lit: may charge until ${momentText(untilMs, r.timeZone, r.language, r.day)}.`,
  age: (min) => (Math.round(min) < 0 ? `stamped ${durationText(-min)} ahead` : `${durationText(min)} old`),
  noWood: (from, to) => `no wood ${from} to ${to}`,
};
