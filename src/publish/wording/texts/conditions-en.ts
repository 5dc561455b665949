// The conditions of the watch in English, each as one sentence with its figures. What was observed and what is forecast is
// said by the condition itself, never by the sentence.

import { withoutUnitOf } from './figure-texts.ts';
import type { ConditionSentence, FigureTexts, Size, TextWords } from './text-words.ts';

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const parts = (...words: readonly (string | null | false)[]): string =>
  words.filter((w) => w !== null && w !== false && w !== '').join(' ');

const time = (at: string | null, size: Size): string | null => at && (size === 'whole' ? `at ${at}` : at);

const often = (everyMin: number): string => (everyMin === 60 ? 'hourly' : `each ${everyMin} min`);

/** "(Test County Airport, 7 mi away, hourly: sees no quick turn)", "(KXYZ 7 mi hourly)", "KXYZ 7 mi" */
const by = ({ by: it }: FigureTexts, size: Size): string | null => {
  if (it === null) return null;
  const every = it.everyMin === null ? null : often(it.everyMin);
  const short = parts(it.name, it.away, every);
  if (size !== 'whole') return size === 'bare' ? short : `(${short})`;
  const said = [it.name, it.away && `${it.away} away`, every && `${every}: sees no quick turn`];
  return `(${said.filter((s) => s !== null && s !== '').join(', ')})`;
};

/** "observed wind northwest 14 mph gust 22 mph at 1:42 pm" */
const wind = (f: FigureTexts, size: Size): string =>
  parts(
    `${f.basis} wind`,
    f.from ?? 'of unknown direction',
    f.speed,
    size === 'whole' && f.gust !== null && `gust ${f.gust}`,
    time(f.asOf, size),
    by(f, size),
  );

const limit: ConditionSentence = (f, size) => {
  const side = f.side === 'atLeast' ? 'limit at least' : 'limit';
  const source = size !== 'whole' || !f.source ? '' : ` (${f.source})`;
  const amount = size === 'bare' ? withoutUnitOf(f.bound, f.value) : f.value;
  const value = parts(f.basis, f.element, amount ?? 'beyond its limit');
  const at = time(f.at ?? f.asOf, size);
  const comma = size === 'bare' && at !== null ? ',' : '';
  return `${upper(parts(`${value}${comma}`, at, by(f, size)))}${f.bound === null ? '' : `, ${side} ${f.bound}${source}`}.`;
};

const when = (f: FigureTexts): string | null =>
  f.between ? `between ${f.between[0]} and ${f.between[1]}` : f.at && `at ${f.at}`;

const TIMES: Readonly<Record<string, string>> = {
  lightUp: 'light-up',
  lightUpBy: 'latest light-up',
  lastCharge: 'last wood',
  burnedDown: 'burned down',
  coveredBy: 'covered by',
};

const VERDICTS: Readonly<Record<string, string>> = { go: 'GO', hold: 'NO WOOD', stop: 'NO FIRE' };
const SAID: Readonly<Record<string, string>> = { hold: 'DO NOT LIGHT', stop: 'NO FIRE' };

/** "Forecast of 12:10 pm" */
const issued = (f: FigureTexts, size: Size): string =>
  upper(parts(f.basis, size === 'whole' && f.asOf !== null && `of ${f.asOf}`));

const moved: ConditionSentence = (f, size) => {
  const told = TIMES[f.code ?? ''] ?? 'a time';
  const was = f.wasAt === null || size === 'bare' ? '' : ` (was ${f.wasAt})`;
  return `${issued(f, size)}: ${f.at === null ? `no ${told} any more` : `${told} now ${f.at}`}${was}.`;
};

const turnAhead: ConditionSentence = (f, size) => {
  if (size === 'bare') return `${upper(parts(f.basis, 'wind', f.from ?? 'turn', f.at))}.`;
  const place = size === 'whole' && f.place ? `; smoke then goes to ${f.place}` : '';
  const turn = parts(f.basis, 'wind turns', f.was && `from ${f.was}`, f.from && `to ${f.from}`);
  return `${upper(parts(turn, f.at && `about ${f.at}`))}${place}.`;
};

/** Whose word a last charge is. */
const byPlan = ({ basis, code }: FigureTexts): string =>
  ({ lastChargeOld: 'old forecast', lastChargeTold: 'plan as last told' })[code ?? ''] ?? basis;

/** What a station is to tell. */
const measured = (f: FigureTexts): string =>
  f.elementCode === 'windDirection' ? 'wind direction' : (f.element ?? 'reading');

const coveredPit = ({ code }: FigureTexts, size: Size): string => {
  if (code === 'several') return ' at all covered pits';
  return size === 'bare' ? '' : ' at the covered pit';
};

export const conditionsEn: Pick<TextWords, 'sentences' | 'topics'> = {
  sentences: {
    'wind-shifted': (f, size) =>
      size === 'whole'
        ? `Wind turned ${parts(when(f), f.was && `from ${f.was}`) || 'around'}: ${wind(f, size)}.`
        : `${upper(wind(f, size))}${f.was === null || size === 'bare' ? '' : `, was ${f.was}`}.`,
    'wind-drifted': (f, size) =>
      size === 'whole'
        ? `Wind drifted${f.was === null ? '' : ` from ${f.was} of the briefing`}: ${wind(f, size)}.`
        : `${upper(wind(f, size))}${f.was === null || size === 'bare' ? '' : `, briefed ${f.was}`}.`,
    'smoke-turned-to-place': (f, size) =>
      size === 'bare'
        ? `${parts('Smoke to', f.place ?? 'a place')}: ${wind(f, size)}.`
        : `Smoke goes to ${f.place ?? 'a protected place'}: ${wind(f, size)}.`,
    'wind-unsteady': (f, size) =>
      size === 'bare'
        ? `${upper(parts(f.basis, 'wind swings', f.asOf, by(f, size)))}.`
        : `Wind swings about: ${wind(f, size)}.`,
    'observed-beyond-limit': limit,
    'thunder-near': (f, size) => {
      const station = size === 'whole' && f.station !== null && `(${f.station})`;
      return `${upper(parts(f.basis, 'thunder near', time(f.at ?? f.asOf, size), station))}.`;
    },
    'official-alert': (f, size) =>
      f.what === null
        ? 'Official alerts cannot be read.'
        : `${parts('Official alert:', f.what, f.at && `from ${f.at}`, size === 'whole' && f.source && `(${f.source})`)}.`,
    'local-order': (f, size) =>
      `${parts('Order:', f.what ?? 'see the office', size === 'whole' && f.source && `(${f.source})`)}.`,
    // Whose it is comes first: it is never left out.
    'authority-stop': (f, size) =>
      `No fire by order of ${f.source ?? 'the authority'}${size === 'bare' || f.what === null ? '' : `: ${f.what}`}.`,
    'plan-worse': (f, size) =>
      `${issued(f, size)} is worse: ${parts(VERDICTS[f.code ?? ''] ?? 'less may be done', size !== 'bare' && f.at !== null && `from ${f.at}`)}.`,
    'plan-moved': moved,
    'plan-verdict': (f, size) => {
      const lit = f.at === null ? f.wasAt && `light-up was ${f.wasAt}` : `light-up ${f.at}`;
      const more = size === 'bare' || lit === null ? '' : ` (${lit})`;
      return `${issued(f, size)}: the day is now ${VERDICTS[f.code ?? ''] ?? 'another'}${more}.`;
    },
    'wind-shift-ahead': turnAhead,
    'forecast-stale': (f, size) =>
      `${f.wasAt === null ? 'No forecast at hand' : `No new forecast since ${f.wasAt}`}${size === 'bare' ? '' : ': decide by eye'}.`,
    'station-silent': (f, size) =>
      `${parts('No reading', f.station && `from ${f.station}`, f.wasAt && `since ${f.wasAt}`)}${size === 'bare' ? '' : `: ${f.readEveryMin === null ? 'watch' : 'read'} the wind`}.`,
    'station-doubted': (f, size) => {
      const readings = parts(f.basis, 'readings', f.station && `of ${f.station}`, 'in doubt');
      const since = size === 'bare' ? null : f.wasAt && `since ${f.wasAt}: watch the wind`;
      return `${upper(parts(readings, since))}.`;
    },
    'reading-missing': (f, size) => {
      const station = size === 'whole' && f.station !== null && `(${f.station})`;
      const missing = `No ${parts(measured(f), 'told', size !== 'bare' && f.wasAt !== null && `since ${f.wasAt}`, station)}`;
      return `${missing}${size === 'bare' ? '' : `: ${f.subject === 'wind' ? 'watch the wind' : 'decide by eye'}`}.`;
    },
    'wind-unmeasured': (f, size) => {
      if (f.station === null) {
        return size === 'bare'
          ? 'Nobody measures the wind: watch smoke.'
          : 'Nobody measures the wind here, there is only the forecast: watch wind and smoke.';
      }
      const every = f.readEveryMin === null ? '' : ` and every ${f.readEveryMin} min`;
      return size === 'bare'
        ? 'Wind not measured: read the meter.'
        : `Nobody measures the wind here: read the hand-held meter now${every}.`;
    },
    'lit-against-plan': (f, size) => {
      const said =
        f.code === 'lightUpBy' ? 'too late for the plan' : `plan said ${SAID[f.code ?? ''] ?? 'otherwise'}`;
      return `${parts('Pit lit', time(f.at, size))}, ${size === 'bare' ? 'against plan' : said}.`;
    },
    'lit-without-go': (f, size) => {
      const said = f.code === 'noPlan' ? 'without a plan' : `watch said ${SAID[f.code ?? ''] ?? 'otherwise'}`;
      return `${parts('Pit lit', time(f.at, size))}, ${said}.`;
    },
    'last-charge-soon': (f, size) => `${parts('Last wood', time(f.at, size) ?? 'soon')} (${byPlan(f)}).`,
    'last-charge-due': (f, size) => `${parts('Last wood was due', time(f.at, size))} (${byPlan(f)}).`,
    'cover-due': (f) => `${parts('Pit to be covered', f.at && `by ${f.at}`)}.`,
    'not-covered-by-dusk': (f, size) =>
      size === 'bare'
        ? 'Not told covered by sunset.'
        : `${parts('Not told covered; sunset was', f.at ? `at ${f.at}` : 'before')}.`,
    'look-again': (f, size) =>
      `Look for smoke or heat${coveredPit(f, size)}${/^\d{1,3}$/.test(f.subject) ? `, day ${f.subject}` : ''}.`,
  },
  topics: {
    'wind-shifted': () => 'wind turn',
    'wind-drifted': (f) =>
      f.code === 'rebriefed' ? parts('wind drift; you know wind', f.from) : 'wind drift',
    'smoke-turned-to-place': (f) => `smoke to ${f.place ?? 'a place'}`,
    'wind-unsteady': () => 'swinging wind',
    'observed-beyond-limit': (f) =>
      parts(
        f.element ?? 'a value',
        'beyond limit',
        f.bound,
        f.code === 'other-wind' &&
          '(not comparable: measured at another height or over another time; counts as hold)',
      ),
    'thunder-near': () => 'thunder near',
    'official-alert': (f) => f.what ?? 'official alerts',
    'local-order': (f) => f.what ?? 'an order',
    'authority-stop': (f) => `no-fire order of ${f.source ?? 'the authority'}`,
    'plan-worse': () => 'worse plan',
    'plan-moved': (f) => `moved ${TIMES[f.code ?? ''] ?? 'time'}`,
    'plan-verdict': () => 'changed plan',
    'wind-shift-ahead': () => 'wind turn ahead',
    'forecast-stale': () => 'old forecast',
    'station-silent': (f) => parts('silent station', f.station),
    'station-doubted': (f) => parts('doubted station', f.station),
    'reading-missing': (f) => `no ${measured(f)} told`,
    'wind-unmeasured': () => 'wind not measured',
    'lit-against-plan': () => 'lit against plan',
    'lit-without-go': () => 'lit without a go',
    'last-charge-soon': () => 'last wood soon',
    'last-charge-due': () => 'last wood due',
    'cover-due': () => 'cover due',
    'not-covered-by-dusk': () => 'not covered by dusk',
    'look-again': () => 'look at the pit',
  },
};
