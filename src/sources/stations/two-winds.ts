// The wind of an observation by its two sources, the values and the report's own text: each fills what the other lacks,
// and where they disagree the graver one counts, doubted.

import { angleBetweenDeg } from '#core/units/direction.ts';
import { type ObservationQuality, type ObservedWind, speedOf } from '#core/watch/observation.ts';

export interface JoinedWind {
  readonly wind: ObservedWind;
  readonly gustMps: number | null;
  /** Of what was taken; null where nothing was. */
  readonly quality: ObservationQuality | null;
  /** Names of what the two do not agree on. */
  readonly disagreed: readonly string[];
}

export interface WindSide {
  readonly wind: ObservedWind;
  readonly gustMps: number | null;
  readonly quality: ObservationQuality | null;
}

/** Both tell whole knots, one of them rounded to 0.1 m/s [m/s]; and whole tens of degrees. */
const SAME_SPEED_MPS = 0.6;
const SAME_DIRECTION_DEG = 10;

/** `text` is null where there is no report, or none for that moment. */
export function joinWinds(values: WindSide, text: WindSide | null): JoinedWind {
  if (text === null) return { ...values, disagreed: [] };
  const wind = joinWind(values, text);
  const gust = joinGust(values, text);
  const disagreed = [...wind.disagreed, ...gust.disagreed];
  const quality = disagreed.length > 0 ? 'doubtful' : leastOf(wind.quality, gust.quality);
  return { wind: wind.wind, gustMps: gust.gustMps, quality, disagreed };
}

const leastOf = (a: ObservationQuality | null, b: ObservationQuality | null): ObservationQuality | null => {
  if (a === null || b === null) return a ?? b;
  if (a === 'doubtful' || b === 'doubtful') return 'doubtful';
  return a === 'unverified' || b === 'unverified' ? 'unverified' : 'passed';
};

function joinWind(values: WindSide, text: WindSide): Omit<JoinedWind, 'gustMps'> {
  const speed = speedOf(values.wind);
  const textSpeed = speedOf(text.wind);
  if (speed === null) return { wind: text.wind, quality: text.quality, disagreed: [] };
  if (textSpeed === null) return { wind: values.wind, quality: values.quality, disagreed: [] };
  const sameSpeed = Math.abs(speed - textSpeed) <= SAME_SPEED_MPS;
  const stronger = sameSpeed || speed > textSpeed ? values : text;
  const strongerMps = Math.max(speed, textSpeed);
  const speeds = sameSpeed ? [] : ['windSpeed'];
  if (stronger.wind.kind === 'missing') {
    // The direction that one lacks is the other's to tell.
    const other = stronger === values ? text.wind : values.wind;
    const wind = withSpeed(other, strongerMps);
    return { wind, quality: leastOf(values.quality, text.quality), disagreed: speeds };
  }
  if (!sameDirection(values.wind, text.wind)) {
    const wind = { kind: 'missing', speedMps: strongerMps } as const;
    return { wind, quality: 'doubtful', disagreed: [...speeds, 'windDirection'] };
  }
  return { wind: stronger.wind, quality: stronger.quality, disagreed: speeds };
}

const withSpeed = (wind: ObservedWind, speedMps: number): ObservedWind =>
  wind.kind === 'blowing' || wind.kind === 'variable' ? { ...wind, speedMps } : { kind: 'missing', speedMps };

/** Calm and what has no direction contradict nobody. */
function sameDirection(a: ObservedWind, b: ObservedWind): boolean {
  if (a.kind === 'calm' || b.kind === 'calm' || a.kind === 'missing' || b.kind === 'missing') return true;
  if (a.kind === 'variable' || b.kind === 'variable') return a.kind === b.kind;
  return angleBetweenDeg(a.fromDeg, b.fromDeg) <= SAME_DIRECTION_DEG + 1e-9;
}

function joinGust(
  values: WindSide,
  text: WindSide,
): { gustMps: number | null; quality: ObservationQuality | null; disagreed: string[] } {
  if (values.gustMps === null || text.gustMps === null) {
    const told = values.gustMps === null ? text : values;
    return { gustMps: told.gustMps, quality: told.gustMps === null ? null : told.quality, disagreed: [] };
  }
  const same = Math.abs(values.gustMps - text.gustMps) <= SAME_SPEED_MPS;
  return {
    gustMps: Math.max(values.gustMps, text.gustMps),
    quality: values.quality,
    disagreed: same ? [] : ['windGust'],
  };
}
