// NMEA 0183 sentences of weather instruments, one by one. Fields: NMEA Revealed (gpsd.gitlab.io/gpsd/NMEA.html), MWV, MWD
// and XDR. A blank is missing, never zero.

export type TransducerKind = 'temperature' | 'humidity' | 'pressure';

export interface Transducer {
  readonly kind: TransducerKind;
  /** As the instrument calls it; often empty. */
  readonly name: string;
  /** °C, % or Pa. */
  readonly value: number;
}

export type NmeaSentence =
  /** MWV. `relative` and `theoretical` are both from the zero mark of the instrument, neither from north. */
  | {
      readonly kind: 'wind-angle';
      readonly reference: 'relative' | 'theoretical';
      readonly angleDeg: number | null;
      readonly speedMps: number | null;
    }
  /** MWD. */
  | {
      readonly kind: 'wind-direction';
      readonly trueDeg: number | null;
      readonly magneticDeg: number | null;
      readonly speedMps: number | null;
    }
  | { readonly kind: 'transducers'; readonly values: readonly Transducer[] }
  /** Any other, with a good checksum. */
  | { readonly kind: 'other' }
  | { readonly kind: 'fault'; readonly fault: 'no-sentence' | 'no-checksum' | 'checksum' | 'fields' };

const SENTENCE = /^\$([A-Z0-9]{2,5}[A-Z]{3}|P[A-Z0-9]+),([\x20-\x7e]*)\*([0-9A-Fa-f]{2})$/;

/** Reads a line without its end. Never throws. */
export function readSentence(line: string): NmeaSentence {
  // A tag block before the sentence: \s:station,c:1577836800*hh\
  const text = line.trim().replace(/^\\[^\\]*\\/, '');
  const match = SENTENCE.exec(text);
  if (!match) return fault(text.startsWith('$') && !text.includes('*') ? 'no-checksum' : 'no-sentence');
  const [, address = '', body = '', told = ''] = match;
  if (checksumOf(`${address},${body}`) !== Number.parseInt(told, 16)) return fault('checksum');
  const fields = body.split(',').map((field) => field.trim());
  if (address.startsWith('P')) return { kind: 'other' };
  switch (address.slice(-3)) {
    case 'MWV':
      return readAngle(fields);
    case 'MWD':
      return readDirection(fields);
    case 'XDR':
      return readTransducers(fields);
    default:
      return { kind: 'other' };
  }
}

/** All characters between `$` and `*`, by exclusive or. */
export function checksumOf(text: string): number {
  let sum = 0;
  for (let i = 0; i < text.length; i += 1) sum ^= text.charCodeAt(i);
  return sum;
}

/** To m/s; S is the statute mile an hour. */
const SPEED: Readonly<Record<string, number>> = { K: 1 / 3.6, M: 1, N: 1852 / 3600, S: 1609.344 / 3600 };

/** `$--MWV,angle,R|T,speed,unit,A|V`. Only a status of A vouches for the rest. */
function readAngle([angle = '', reference, speed = '', unit = '', status]: string[]): NmeaSentence {
  const words = { R: 'relative', T: 'theoretical' } as const;
  if (reference !== 'R' && reference !== 'T') return fault('fields');
  const nothing = {
    kind: 'wind-angle',
    reference: words[reference],
    angleDeg: null,
    speedMps: null,
  } as const;
  if (status !== 'A') return status === 'V' || status === '' ? nothing : fault('fields');
  const factor = Object.hasOwn(SPEED, unit) ? SPEED[unit] : undefined;
  const angleDeg = degreesOf(angle);
  const number = numberOf(speed);
  const isSpeed = number === null || (number !== undefined && number >= 0);
  if (angleDeg === undefined || number === undefined || !isSpeed) return fault('fields');
  if (number === null) return { ...nothing, angleDeg };
  return factor === undefined ? fault('fields') : { ...nothing, angleDeg, speedMps: number * factor };
}

/** Knots have one decimal or more; what differs by more than they round to contradicts itself [m/s]. */
const SAME_MPS = 0.2;

/** `$--MWD,true,T,magnetic,M,knots,N,m/s,M`, each of the four with its letter. */
function readDirection(fields: string[]): NmeaSentence {
  const [trueText = '', t, magneticText = '', m, knotText = '', n, mpsText = '', mps] = fields;
  const lettersFit = isBlankOr(t, 'T') && isBlankOr(m, 'M') && isBlankOr(n, 'N') && isBlankOr(mps, 'M');
  const trueDeg = degreesOf(trueText);
  const magneticDeg = degreesOf(magneticText);
  const knots = numberOf(knotText);
  const metres = numberOf(mpsText);
  if (!lettersFit || trueDeg === undefined || magneticDeg === undefined) return fault('fields');
  if (knots === undefined || metres === undefined) return fault('fields');
  const byKnots = knots === null ? null : knots * (SPEED['N'] as number);
  if (byKnots !== null && metres !== null && Math.abs(byKnots - metres) > SAME_MPS + 0.02 * metres) {
    return fault('fields');
  }
  const speedMps = metres ?? byKnots;
  if (speedMps !== null && speedMps < 0) return fault('fields');
  return { kind: 'wind-direction', trueDeg, magneticDeg, speedMps };
}

const isBlankOr = (field: string | undefined, letter: string): boolean =>
  field === undefined || field === '' || field === letter;

/** Kind and unit letters → what is measured, and its factor to °C, % or Pa. */
const TRANSDUCERS: Readonly<Record<string, { readonly kind: TransducerKind; readonly factor: number }>> = {
  'C C': { kind: 'temperature', factor: 1 },
  'H P': { kind: 'humidity', factor: 1 },
  'P B': { kind: 'pressure', factor: 100_000 },
  'P P': { kind: 'pressure', factor: 1 },
};

/** `$--XDR,kind,value,unit,name` again and again; what is of another kind, or blank, is passed over. */
function readTransducers(fields: string[]): NmeaSentence {
  const values: Transducer[] = [];
  for (let i = 0; i + 2 < fields.length; i += 4) {
    const [letter = '', text = '', unit = '', name = ''] = fields.slice(i, i + 4);
    const known = `${letter} ${unit}`;
    const row = Object.hasOwn(TRANSDUCERS, known) ? TRANSDUCERS[known] : undefined;
    const value = numberOf(text);
    if (value === undefined) return fault('fields');
    if (row && value !== null) values.push({ kind: row.kind, name, value: value * row.factor });
  }
  return { kind: 'transducers', values };
}

/** Null where blank, undefined where it is no plain decimal number. */
function numberOf(text: string): number | null | undefined {
  if (text === '') return null;
  return /^[+-]?\d{1,9}(?:\.\d{0,9})?$/.test(text) ? Number(text) : undefined;
}

function degreesOf(text: string): number | null | undefined {
  const number = numberOf(text);
  return number === null || (number !== undefined && number >= 0 && number <= 360) ? number : undefined;
}

const fault = (kind: Extract<NmeaSentence, { kind: 'fault' }>['fault']): NmeaSentence => ({
  kind: 'fault',
  fault: kind,
});
