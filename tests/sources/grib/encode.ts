// GRIB2 messages written for tests from the WMO Manual on Codes (WMO-No. 306, Volume I.2, FM 92), knowing nothing of the
// decoder.

import { type Cell, encodeGroups, type GroupOptions } from './encode-groups.ts';
import { lambertSection, productSection } from './encode-heads.ts';
import { Octets, sameWidth, section } from './octets.ts';

export interface FieldSpec {
  readonly ni: number;
  readonly nj: number;
  /** Flag table 3.4. */
  readonly scan: number;
  /** One cell at j × ni + i; null is left out by a bitmap. */
  readonly cells: readonly (Cell | null)[];
  readonly reference: number;
  readonly binaryScale: number;
  readonly decimalScale: number;
  readonly packing: { kind: 'simple'; spareBits: number } | ({ kind: 'complex' } & GroupOptions);
  /** 254 takes the bitmap of the field before. */
  readonly bitmap: 'none' | 'own' | 'before';
  /** Sections of this field from here on; what comes before is as in the field before. */
  readonly from: 2 | 3 | 4;
}

export interface MessageSpec {
  readonly discipline: number;
  readonly fields: readonly FieldSpec[];
}

/** Which cell is the nth that is sent. */
export function cellOfNth({ ni, nj, scan }: Pick<FieldSpec, 'ni' | 'nj' | 'scan'>, n: number): number {
  const line = scan & 0x20 ? nj : ni;
  const which = Math.floor(n / line);
  const within = scan & 0x10 && which % 2 === 1 ? line - 1 - (n % line) : n % line;
  const [across, along] = scan & 0x20 ? [which, within] : [within, which];
  const i = scan & 0x80 ? ni - 1 - across : across;
  const j = scan & 0x40 ? along : nj - 1 - along;
  return j * ni + i;
}

export function encodeField(field: FieldSpec): number[] {
  const sent = field.cells.map((_, n) => field.cells[cellOfNth(field, n)] ?? null);
  const cells = field.bitmap === 'none' ? (sent as Cell[]) : sent.filter((cell) => cell !== null);
  const { template, representation, data } = pack(cells, field.packing);
  const head = new Octets()
    .u(4, cells.length)
    .u(2, template)
    .f32(field.reference)
    .s(2, field.binaryScale)
    .s(2, field.decimalScale)
    .add(representation);
  return [
    ...(field.from === 2 ? section(2, new Octets().add([1, 2, 3])) : []),
    ...(field.from <= 3 ? lambertSection(field) : []),
    ...productSection(),
    ...section(5, head),
    ...bitmapSection(field, sent),
    ...section(7, new Octets().add(data)),
  ];
}

function pack(cells: readonly Cell[], packing: FieldSpec['packing']) {
  if (packing.kind === 'complex') {
    return { template: packing.order > 0 ? 3 : 2, ...encodeGroups(cells, packing) };
  }
  const values = cells as number[];
  const most = values.reduce((top, value) => Math.max(top, value), 0);
  const bits = Math.min(32, (most === 0 ? 0 : Math.floor(Math.log2(most)) + 1) + packing.spareBits);
  return { template: 0, representation: [bits, 0], data: sameWidth(values, bits) };
}

function bitmapSection(field: FieldSpec, sent: readonly (Cell | null)[]): number[] {
  if (field.bitmap === 'none') return section(6, new Octets().u(1, 255));
  if (field.bitmap === 'before') return section(6, new Octets().u(1, 254));
  const bits = sameWidth(
    sent.map((cell) => (cell === null ? 0 : 1)),
    1,
  );
  return section(6, new Octets().u(1, 0).add(bits));
}

export function encodeMessage({ discipline, fields }: MessageSpec): Uint8Array {
  const identification = section(
    1,
    new Octets().u(2, 7).u(2, 14).u(1, 2).u(1, 1).u(1, 1).u(2, 2026).add([3, 4, 6, 0, 0, 0, 1]),
  );
  const body = [...identification, ...fields.flatMap(encodeField)];
  const whole = new Octets()
    .add([0x47, 0x52, 0x49, 0x42, 0, 0, discipline, 2])
    .u(8, 16 + body.length + 4)
    .add(body)
    .add([0x37, 0x37, 0x37, 0x37]);
  return Uint8Array.from(whole.out);
}

/** What a cell must decode to: (R + X × 2^E) ÷ 10^D (92.9.4) in double precision, rounded to single. */
export function expectedValue(field: FieldSpec, cell: Cell | null): number {
  if (typeof cell !== 'number') return Number.NaN;
  const decimal = 10 ** -field.decimalScale;
  return Math.fround((Math.fround(field.reference) + cell * 2 ** field.binaryScale) * decimal);
}
