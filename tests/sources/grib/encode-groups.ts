// Complex packing, templates 5.2 and 5.3, written from the WMO Manual on Codes: 92.9.4, notes to templates 5.2, 5.3, 7.2, 7.3.

import { bitsOf, Octets, packedBits, sameWidth } from './octets.ts';

/** A packed whole number, or one of the two kinds of missing. */
export type Cell = number | 'primary' | 'secondary';

export interface GroupOptions {
  readonly missingKinds: 0 | 1 | 2;
  readonly order: 0 | 1 | 2;
  /** How long the groups are; repeated over the field, the last one takes what is left. */
  readonly lengths: readonly number[];
  readonly lengthIncrement: number;
  /** Bits that are more than needed, for references and for the values of every group. */
  readonly spareReferenceBits: number;
  readonly spareWidth: number;
  /** The part of the group widths that stands in section 5. */
  readonly widthReference: number;
  readonly spareExtraOctets: number;
}

interface Group {
  readonly reference: number;
  readonly width: number;
  readonly packed: readonly number[];
}

export interface EncodedGroups {
  /** Section 5 from octet 20 on. */
  readonly representation: number[];
  /** Section 7 from octet 6 on. */
  readonly data: number[];
}

export function encodeGroups(cells: readonly Cell[], options: GroupOptions): EncodedGroups {
  const { differences, head, extraOctets } = differenced(cells, options);
  const split = splitUp(differences, options);
  const referenceBits = bitsFor(split, options);
  const groups = split.map((group) => encodeGroup(group, referenceBits, options));
  const increment = options.lengthIncrement;
  const lengthReference = Math.min(
    ...split.slice(0, -1).map((group) => group.length),
    ...(split.length < 2 ? [0] : []),
  );
  const steps = split.map((group, g) =>
    g === split.length - 1 ? 0 : (group.length - lengthReference) / increment,
  );
  const widths = groups.map((group) => group.width - options.widthReference);
  const [widthBits, lengthBits] = [bitsOf(Math.max(...widths)), bitsOf(Math.max(...steps))];
  const representation = new Octets()
    .u(1, referenceBits)
    .u(1, 0)
    .u(1, 1)
    .u(1, options.missingKinds)
    .f32(9999)
    .f32(9998)
    .u(4, groups.length)
    .u(1, options.widthReference)
    .u(1, widthBits)
    .u(4, lengthReference)
    .u(1, increment)
    .u(4, split.at(-1)?.length ?? 0)
    .u(1, lengthBits);
  if (options.order > 0) representation.u(1, options.order).u(1, extraOctets);
  const data = [
    ...head,
    ...sameWidth(
      groups.map((group) => group.reference),
      referenceBits,
    ),
    ...sameWidth(widths, widthBits),
    ...sameWidth(steps, lengthBits),
    ...packedBits(groups.flatMap(({ packed, width }) => packed.map((value) => ({ value, width })))),
  ];
  return { representation: representation.out, data };
}

const isNumber = (cell: Cell): cell is number => typeof cell === 'number';

/** Differences of the cells that have a value, less their minimum; those without one stay as they are. */
function differenced(cells: readonly Cell[], { order, spareExtraOctets }: GroupOptions) {
  if (order === 0) return { differences: cells, head: [], extraOctets: 0 };
  const values = cells.filter(isNumber);
  const at = (n: number): number => values[n] ?? 0;
  const steps = values.map((value, n) =>
    order === 1 ? value - at(n - 1) : value - 2 * at(n - 1) + at(n - 2),
  );
  const minimum = steps.slice(order).reduce((least, step) => Math.min(least, step), steps[order] ?? 0);
  const heads = [...Array.from({ length: order }, (_, n) => at(n)), minimum];
  const most = Math.max(...heads.map(Math.abs));
  const extraOctets = Math.min(4, (most === 0 ? 0 : Math.ceil((bitsOf(most) + 1) / 8)) + spareExtraOctets);
  const head = heads.reduce((octets, value) => octets.s(extraOctets, value), new Octets()).out;
  let n = 0;
  const differences = cells.map((cell): Cell => {
    if (!isNumber(cell)) return cell;
    const step = n < order ? 0 : (steps[n] ?? 0) - minimum;
    n += 1;
    return step;
  });
  return { differences, head, extraOctets };
}

/** Lengths grow by whole increments from the first one, but for the last group. */
function splitUp(cells: readonly Cell[], { lengths, lengthIncrement }: GroupOptions): Cell[][] {
  const least = Math.min(...lengths);
  const groups: Cell[][] = [];
  for (let at = 0, g = 0; at < cells.length; g += 1) {
    const wished = lengths[g % lengths.length] ?? 1;
    const length = least + Math.floor((wished - least) / lengthIncrement) * lengthIncrement;
    groups.push(cells.slice(at, at + length));
    at += length;
  }
  return groups;
}

/** So many bits that no reference looks like missing, unless nothing has a value. */
function bitsFor(groups: readonly Cell[][], { missingKinds, spareReferenceBits }: GroupOptions): number {
  const references = groups
    .map((group) => group.filter(isNumber))
    .map((values) => (values.length > 0 ? Math.min(...values) : 0));
  const most = Math.max(0, ...references);
  const someMissing = groups.some((group) => group.every((cell) => !isNumber(cell)));
  const allMissing = groups.every((group) => group.every((cell) => !isNumber(cell)));
  // Zero bits: every reference is zero, and a group without bits is missing.
  if (allMissing && spareReferenceBits === 0 && missingKinds === 1) return 0;
  const needed = bitsOf(most + (missingKinds > 0 ? missingKinds : 0));
  return Math.min(32, Math.max(needed, someMissing ? missingKinds : 0) + spareReferenceBits);
}

function encodeGroup(cells: readonly Cell[], referenceBits: number, options: GroupOptions): Group {
  const values = cells.filter(isNumber);
  const kinds = options.missingKinds;
  const ones = 2 ** referenceBits - 1;
  const sole = new Set(cells).size === 1 ? cells[0] : undefined;
  if (options.widthReference === 0 && options.spareWidth === 0) {
    if (sole === 'primary') return { reference: ones, width: 0, packed: cells.map(() => 0) };
    if (sole === 'secondary') return { reference: ones - 1, width: 0, packed: cells.map(() => 0) };
    if (isNumber(sole ?? 'primary') && Number(sole) <= ones - kinds) {
      return { reference: Number(sole), width: 0, packed: cells.map(() => 0) };
    }
  }
  const reference = values.length > 0 ? Math.min(...values) : 0;
  const most = Math.max(0, ...values.map((value) => value - reference));
  const needed = Math.max(bitsOf(most + kinds), 1);
  const width = Math.min(32, Math.max(needed + options.spareWidth, options.widthReference));
  const top = 2 ** width - 1;
  const packed = cells.map((cell) => {
    if (cell === 'primary') return top;
    return cell === 'secondary' ? top - 1 : cell - reference;
  });
  return { reference, width, packed };
}
