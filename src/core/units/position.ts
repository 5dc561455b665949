// Positions as people read them out over a radio and type them: decimal degrees, degrees and minutes, or degrees, minutes and
// seconds. WGS 84, north and east positive.

export interface Position {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** The place so far away in a direction, along a great circle of the sphere that `bearingAndDistance` measures on. */
export function placeToward(from: Position, bearingDeg: number, distanceM: number): Position {
  const rad = Math.PI / 180;
  const arc = distanceM / 6_371_008.8;
  const lat1 = from.latDeg * rad;
  const toward = bearingDeg * rad;
  const sinLat = Math.sin(lat1) * Math.cos(arc) + Math.cos(lat1) * Math.sin(arc) * Math.cos(toward);
  const y = Math.sin(toward) * Math.sin(arc) * Math.cos(lat1);
  const x = Math.cos(arc) - Math.sin(lat1) * sinLat;
  const lonDeg = from.lonDeg + Math.atan2(y, x) / rad;
  return {
    latDeg: Math.asin(Math.max(-1, Math.min(1, sinLat))) / rad,
    lonDeg: ((((lonDeg + 180) % 360) + 360) % 360) - 180,
  };
}

export interface DegreesMinutes {
  readonly degrees: number;
  /** To a thousandth: under two metres. */
  readonly minutes: number;
  readonly isNegative: boolean;
}

const THOUSANDTHS = 60_000;

/** 59.9996 minutes are the next whole degree, not sixty minutes. */
export function degreesMinutes(deg: number): DegreesMinutes {
  const parts = Math.round(Math.abs(deg) * THOUSANDTHS);
  return {
    degrees: Math.floor(parts / THOUSANDTHS),
    minutes: (parts % THOUSANDTHS) / 1000,
    isNegative: deg < 0 && parts > 0,
  };
}

/** Degrees of one axis as they were typed, and which axis a letter made it. */
interface Typed {
  readonly deg: number;
  readonly axis: 'lat' | 'lon' | null;
}

/** Any of what stands for degrees, minutes and seconds; letters are left. */
const SIGNS = /[°º′’'″”":]/g;
/** O is west in Spanish. */
const LETTERS: Readonly<Record<string, readonly ['lat' | 'lon', 1 | -1]>> = {
  N: ['lat', 1],
  S: ['lat', -1],
  E: ['lon', 1],
  W: ['lon', -1],
  O: ['lon', -1],
};

/** Null where it is no position, or could be two: nothing is guessed. Without letters latitude comes first. */
export function parsePosition(text: string): Position | null {
  if (text.length > 80) return null;
  const [first, second] = halvesOf(text.trim().toUpperCase().replaceAll(SIGNS, ' '));
  const a = first === undefined ? null : axisOf(first);
  const b = second === undefined ? null : axisOf(second);
  if (a === null || b === null || (a.axis === null) !== (b.axis === null)) return null;
  if (a.axis !== null && a.axis === b.axis) return null;
  const [lat, lon] = a.axis === 'lon' ? [b, a] : [a, b];
  const fits = Math.abs(lat.deg) <= 90 && Math.abs(lon.deg) <= 180;
  return fits ? { latDeg: lat.deg, lonDeg: lon.deg } : null;
}

/** By the comma, by the letters, or in the middle of as many numbers. */
function halvesOf(text: string): readonly (string | undefined)[] {
  const byComma = text.split(/[,;]/);
  if (byComma.length === 2) return byComma;
  if (byComma.length > 2) return [];
  const letters =
    /^([NS][^NSEWO]*)([EWO].*)$|^([EWO][^NSEWO]*)([NS].*)$|^([^NSEWO]*[NSEWO])([^NSEWO]*[NSEWO])$/.exec(text);
  if (letters) return letters.slice(1).filter((part) => part !== undefined);
  const numbers = text.split(/\s+/);
  const half = numbers.length / 2;
  return Number.isInteger(half) ? [numbers.slice(0, half).join(' '), numbers.slice(half).join(' ')] : [];
}

/** "38 58.2 N", "N38 58 12", "-92.33": the last number alone may have decimals, and minutes are below sixty. */
function axisOf(text: string): Typed | null {
  const match =
    /^\s*([NSEWO])?\s*([+-]?)\s*(\d+(?:\.\d+)?(?:[\s-]+\d+(?:\.\d+)?){0,2})\s*([NSEWO])?\s*$/.exec(text);
  const numbers = match?.[3]?.split(/[\s-]+/) ?? [];
  const letter = match?.[1] ?? match?.[4] ?? null;
  if (match === null || (match[1] !== undefined && match[4] !== undefined)) return null;
  if (letter !== null && match[2] !== '') return null;
  if (numbers.slice(0, -1).some((number) => number.includes('.'))) return null;
  const [degrees = 0, minutes = 0, seconds = 0] = numbers.map(Number);
  if (minutes >= 60 || seconds >= 60) return null;
  const [axis, sign] = (letter === null ? null : LETTERS[letter]) ?? [null, match[2] === '-' ? -1 : 1];
  return { deg: sign * (degrees + minutes / 60 + seconds / 3600) + 0, axis };
}
