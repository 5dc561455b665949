// Sections 3 and 4 for tests, from the WMO Manual on Codes: templates 3.0, 3.10, 3.20, 3.30, 4.0, 4.1, 4.6, 4.8, 4.9, 4.10.

import { Octets, section } from './octets.ts';

interface Size {
  readonly ni: number;
  readonly nj: number;
  readonly scan: number;
}

const degrees = (deg: number): number => Math.round(deg * 1e6);

/** Octets 6 to 30: `shape` of code table 3.2. */
const gridHead = (template: number, { ni, nj }: Size, shape = 6): Octets =>
  new Octets()
    .u(1, 0)
    .u(4, ni * nj)
    .u(1, 0)
    .u(1, 0)
    .u(2, template)
    .u(1, shape)
    .u(1, 0)
    .u(4, 6_371_200)
    .u(5, 0)
    .u(5, 0);

export function lambertSection(
  size: Size,
  {
    lat = 21.138123,
    lon = 237.280472,
    orientation = 262.5,
    cuts = [38.5, 38.5],
    stepM = 3000,
    flags = 8,
    shape = 6,
  } = {},
): number[] {
  const contents = gridHead(30, size, shape)
    .u(4, size.ni)
    .u(4, size.nj)
    .s(4, degrees(lat))
    .s(4, degrees(lon))
    .u(1, flags)
    .s(4, degrees(cuts[0] ?? 0))
    .s(4, degrees(orientation))
    .u(4, stepM * 1000)
    .u(4, stepM * 1000)
    .u(1, 0)
    .u(1, size.scan)
    .s(4, degrees(cuts[0] ?? 0))
    .s(4, degrees(cuts[1] ?? 0))
    .s(4, degrees(-90))
    .s(4, 0);
  return section(3, contents);
}

/** `first` and `last` scanned point as latitude, longitude. */
export function latLonSection(
  size: Size,
  first: readonly [number, number],
  last: readonly [number, number],
  step: number,
): number[] {
  const contents = gridHead(0, size)
    .u(4, size.ni)
    .u(4, size.nj)
    .u(4, 0)
    .u(4, 0xffff_ffff)
    .s(4, degrees(first[0]))
    .s(4, degrees(first[1]))
    .u(1, 48)
    .s(4, degrees(last[0]))
    .s(4, degrees(last[1]))
    .u(4, degrees(step))
    .u(4, degrees(step))
    .u(1, size.scan);
  return section(3, contents);
}

export function mercatorSection(
  size: Size,
  { lat = 16.828685, lon = 291.804687, trueLat = 20, stepM = 2500 } = {},
): number[] {
  const contents = gridHead(10, size, 1)
    .u(4, size.ni)
    .u(4, size.nj)
    .s(4, degrees(lat))
    .s(4, degrees(lon))
    .u(1, 0)
    .s(4, degrees(trueLat))
    .s(4, degrees(lat + 1))
    .s(4, degrees(lon + 1))
    .u(1, size.scan)
    .u(4, 0)
    .u(4, stepM * 1000)
    .u(4, stepM * 1000);
  return section(3, contents);
}

export function polarSection(
  size: Size,
  {
    lat = 40.530101,
    lon = 181.429,
    trueLat = 60,
    orientation = 210,
    stepM = 5953.125,
    south = false,
    shape = 1,
  } = {},
): number[] {
  const contents = gridHead(20, size, shape)
    .u(4, size.ni)
    .u(4, size.nj)
    .s(4, degrees(lat))
    .s(4, degrees(lon))
    .u(1, 0)
    .s(4, degrees(trueLat))
    .s(4, degrees(orientation))
    .u(4, stepM * 1000)
    .u(4, stepM * 1000)
    .u(1, south ? 0x80 : 0)
    .u(1, size.scan);
  return section(3, contents);
}

export interface ProductSpec {
  readonly template: number;
  readonly category: number;
  readonly number: number;
  readonly generating: number;
  readonly surface: readonly [type: number, value: number | null];
  /** Hours from the reference time, 2026-03-04 06:00 UTC. */
  readonly fromHour: number;
  readonly toHour: number;
  /** Code table 4.10. */
  readonly process: number;
  /** Template 4.9: type, and its limits. */
  readonly probability: readonly [type: number, lower: number, upper: number];
  readonly percentile: number;
}

export const TEMPERATURE_2M: ProductSpec = {
  template: 0,
  category: 0,
  number: 0,
  generating: 2,
  surface: [103, 2],
  fromHour: 3,
  toHour: 3,
  process: 1,
  probability: [1, 0, 0.254],
  percentile: 50,
};

export function productSection(spec: Partial<ProductSpec> = {}): number[] {
  const product = { ...TEMPERATURE_2M, ...spec };
  const [surface, value] = product.surface;
  const contents = new Octets()
    .u(2, 0)
    .u(2, product.template)
    .add([product.category, product.number, product.generating, 0, 0])
    .u(2, 0)
    .u(1, 0)
    .u(1, 1)
    .s(4, product.fromHour)
    .u(1, surface)
    .u(1, value === null ? 255 : 0)
    .u(4, value ?? 0xffff_ffff)
    .u(1, 255)
    .u(1, 255)
    .u(4, 0xffff_ffff);
  if (product.template === 1) contents.add([3, 7, 31]);
  if (product.template === 6 || product.template === 10) contents.u(1, product.percentile);
  if (product.template === 9) {
    const [type, lower, upper] = product.probability;
    contents
      .add([0, 1, type])
      .u(1, 3)
      .s(4, Math.round(lower * 1000))
      .u(1, 3)
      .s(4, Math.round(upper * 1000));
  }
  if (product.template >= 8) addPeriod(contents, product);
  return section(4, contents);
}

function addPeriod(contents: Octets, { fromHour, toHour, process }: ProductSpec): void {
  const end = new Date(Date.UTC(2026, 2, 4, 6 + toHour));
  contents
    .u(2, end.getUTCFullYear())
    .add([end.getUTCMonth() + 1, end.getUTCDate(), end.getUTCHours(), 0, 0])
    .u(1, 1)
    .u(4, 0)
    .add([process, 2, 1])
    .u(4, toHour - fromHour)
    .u(1, 255)
    .u(4, 0);
}
