// Sentences of an instrument joined into one observation for each averaging period.

import { ELEMENTS } from '#core/series/elements.ts';
import type { DataFault } from '#core/series/forecast.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { Station } from '#core/watch/station.ts';
import type { DirectionSettings } from '#core/watch/station-source.ts';
import { type FaultTally, makeFaultTally } from '#sources/nws/fault-tally.ts';
import { meanWind, type WindSample } from './mean-wind.ts';
import { type NmeaSentence, readSentence, type Transducer, type TransducerKind } from './nmea.ts';
import { trueDirection } from './true-direction.ts';

export interface PeriodOptions {
  readonly station: Station;
  readonly directions: DirectionSettings;
  /** Names of the transducers that are believed; empty: any, where a kind has only one. */
  readonly transducers: readonly string[];
}

export interface Closed {
  /** Null where the period told nothing. */
  readonly observation: Observation | null;
  readonly faults: readonly DataFault[];
}

export interface NmeaPeriods {
  /** Takes a line that came at an instant; gives the period before where this one begins another. */
  take(line: string, atMs: number): { readonly closed: Closed | null; readonly good: boolean };
  /** Closes the period that is open: no more lines will come. */
  close(atMs: number): Closed | null;
}

/** Where neither reading nor operator tells it, two minutes as at airports. */
const AVERAGING_S = 120;

export function makeNmeaPeriods(options: PeriodOptions): NmeaPeriods {
  const lengthMs = (options.station.windAveragingS ?? AVERAGING_S) * 1000;
  let open: Period | null = null;

  const closeAt = (period: Period, atMs: number): Closed => ({
    observation: observationOf(period, Math.min(atMs, period.startMs + lengthMs), atMs, options, lengthMs),
    faults: period.tally.rows(),
  });

  return {
    take(line, atMs) {
      const startMs = Math.floor(atMs / lengthMs) * lengthMs;
      let closed: Closed | null = null;
      // A clock that was set back begins a period, too.
      if (open !== null && open.startMs !== startMs) {
        closed = closeAt(open, Math.max(atMs, open.lastMs));
        open = null;
      }
      open ??= newPeriod(startMs);
      const sentence = readSentence(line);
      note(open, sentence, line, atMs, options);
      return { closed, good: sentence.kind !== 'fault' };
    },
    close(atMs) {
      const closed = open && closeAt(open, Math.max(atMs, open.lastMs));
      open = null;
      return closed;
    },
  };
}

/** MWD tells of north by itself; of the two angles the theoretical one is reckoned from the relative one. */
type WindSource = 'direction' | 'relative' | 'theoretical';
const BEST_FIRST: readonly WindSource[] = ['direction', 'relative', 'theoretical'];

interface TimedSample extends WindSample {
  readonly atMs: number;
}

interface Period {
  readonly startMs: number;
  lastMs: number;
  readonly winds: Readonly<Record<WindSource, TimedSample[]>>;
  readonly transducers: Transducer[];
  /** The last sentence of each kind. */
  readonly raw: Map<string, string>;
  readonly tally: FaultTally;
}

const newPeriod = (startMs: number): Period => ({
  startMs,
  lastMs: startMs,
  winds: { direction: [], relative: [], theoretical: [] },
  transducers: [],
  raw: new Map(),
  tally: makeFaultTally(),
});

function note(
  period: Period,
  sentence: NmeaSentence,
  line: string,
  atMs: number,
  { directions, transducers }: PeriodOptions,
): void {
  const { tally } = period;
  period.lastMs = Math.max(period.lastMs, atMs);
  if (sentence.kind === 'fault') {
    tally.add(sentence.fault, 'sentence', line);
    return;
  }
  if (sentence.kind === 'other') return;
  period.raw.set(sentence.kind, line.trim());
  if (sentence.kind === 'transducers') {
    const believed = sentence.values.filter(
      ({ name }) => transducers.length === 0 || transducers.includes(name),
    );
    period.transducers.push(...believed);
    return;
  }
  const speedMps = plausibleSpeed(sentence.speedMps, line, tally);
  const fromDeg = fromDegOf(sentence, directions, line, tally);
  const source = sentence.kind === 'wind-direction' ? 'direction' : sentence.reference;
  period.winds[source].push({ atMs, speedMps, fromDeg });
}

function plausibleSpeed(speedMps: number | null, line: string, tally: FaultTally): number | null {
  if (speedMps === null || speedMps <= ELEMENTS.windSpeed.most) return speedMps;
  tally.add('out-of-range', 'windSpeed', line);
  return null;
}

function fromDegOf(
  sentence: Extract<NmeaSentence, { kind: 'wind-angle' | 'wind-direction' }>,
  directions: DirectionSettings,
  line: string,
  tally: FaultTally,
): number | null {
  if (sentence.kind === 'wind-direction' && sentence.trueDeg !== null) {
    return trueDirection(sentence.trueDeg, 'true', directions);
  }
  const reference = sentence.kind === 'wind-direction' ? 'magnetic' : 'relative';
  const deg = sentence.kind === 'wind-direction' ? sentence.magneticDeg : sentence.angleDeg;
  if (deg === null) return null;
  const found = trueDirection(deg, reference, directions);
  if (found === null)
    tally.add(reference === 'magnetic' ? 'no-declination' : 'no-mount', 'windDirection', line);
  return found;
}

function observationOf(
  period: Period,
  observedAtMs: number,
  receivedAtMs: number,
  { station }: PeriodOptions,
  lengthMs: number,
): Observation | null {
  const samples = samplesOf(period);
  const { wind, gustMps } = meanWind(samples, station.calmBelowMps);
  const whole = spanMs(samples) * 2 >= lengthMs;
  const transducer = (kind: TransducerKind) => transducerMean(period, kind);
  const rest = {
    relativeHumidityPct: transducer('humidity'),
    temperatureC: transducer('temperature'),
    pressurePa: transducer('pressure'),
  };
  const nothing = samples.length === 0 && Object.values(rest).every((value) => value === null);
  if (nothing) return null;
  return {
    station: station.id,
    observedAtMs,
    receivedAtMs,
    // A mean over less than half of its period is none; the largest of what was felt still was felt.
    wind: whole ? wind : { kind: 'missing', speedMps: null },
    windHeightM: station.windHeightM,
    windAveragingS: lengthMs / 1000,
    gustMps,
    ...rest,
    dewPointC: null,
    thunder: null,
    windShiftAtMs: null,
    quality: 'unverified',
    corrects: false,
    raw: [...period.raw.values()].join('\n') || null,
  };
}

/** The samples of one source alone: the best one that tells a speed. */
function samplesOf({ winds }: Period): readonly TimedSample[] {
  const telling = BEST_FIRST.find((source) => winds[source].some(({ speedMps }) => speedMps !== null));
  const any = BEST_FIRST.find((source) => winds[source].length > 0);
  const source = telling ?? any;
  return source === undefined ? [] : winds[source];
}

function spanMs(samples: readonly TimedSample[]): number {
  const first = samples.at(0);
  const last = samples.at(-1);
  return first && last ? last.atMs - first.atMs : 0;
}

const RANGE: Readonly<Record<TransducerKind, readonly [number, number]>> = {
  temperature: [ELEMENTS.temperature.least, ELEMENTS.temperature.most],
  // Air of 0 % does not exist: a sensor that is dead tells it.
  humidity: [1, ELEMENTS.relativeHumidity.most],
  pressure: [50_000, 110_000],
};

/** Several transducers of one kind are never averaged: the operator must name the one to believe. */
function transducerMean({ transducers, tally }: Period, kind: TransducerKind): number | null {
  const of = transducers.filter((one) => one.kind === kind);
  const names = new Set(of.map(({ name }) => name));
  if (names.size > 1) {
    tally.add('several-transducers', kind, [...names].join(', '));
    return null;
  }
  const [least, most] = RANGE[kind];
  const good = of.filter(({ value }) => value >= least && value <= most);
  if (good.length < of.length) tally.add('out-of-range', kind, of.find((one) => !good.includes(one))?.value);
  return good.length === 0 ? null : good.reduce((sum, { value }) => sum + value, 0) / good.length;
}
