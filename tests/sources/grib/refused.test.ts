// What is refused, and at which byte: messages spoilt in one place each.

import { describe, expect, it } from 'vitest';
import { GribFault, type GribFaultKind } from '#sources/grib/fault.ts';
import { decodeField, gridOf, readHead } from '#sources/grib/field.ts';
import { findMessages } from '#sources/grib/find-messages.ts';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import { Meter } from '#sources/grib/limits.ts';
import { readFile } from '#sources/grib/read-file.ts';
import { fieldsOf } from './decoded.ts';
import { encodeMessage, type FieldSpec } from './encode.ts';

const FIELD: FieldSpec = {
  ni: 4,
  nj: 3,
  scan: 0x50,
  cells: [1, 2, 3, 9, 9, 9, 5, 4, 3, 2, 'primary', 0],
  reference: 0,
  binaryScale: 0,
  decimalScale: 0,
  packing: {
    kind: 'complex',
    missingKinds: 1,
    order: 2,
    lengths: [5, 3],
    lengthIncrement: 1,
    spareReferenceBits: 0,
    spareWidth: 0,
    widthReference: 0,
    spareExtraOctets: 0,
  },
  bitmap: 'none',
  from: 3,
};

const kernel = new PlainKernel();
const sound = encodeMessage({ discipline: 0, fields: [FIELD] });

/** Offset of an octet of a section of the sound message. */
function at(section: number, octet: number, bytes = sound): number {
  const view = new DataView(bytes.buffer);
  for (let start = 16; start < bytes.length - 4; start += view.getUint32(start)) {
    if (bytes[start + 4] === section) return start + octet - 1;
  }
  throw new Error('no such section');
}

function spoilt(section: number, octet: number, value: number, octets = 1): Uint8Array {
  const bytes = sound.slice();
  for (let n = 0; n < octets; n += 1)
    bytes[at(section, octet) + n] = Math.floor(value / 256 ** (octets - 1 - n)) % 256;
  return bytes;
}

function readAll(bytes: Uint8Array, meter = new Meter()): void {
  for (const raw of fieldsOf(bytes)) {
    readHead(raw);
    decodeField(raw, gridOf(raw), kernel, meter);
  }
}

function faultOf(run: () => unknown): { kind: GribFaultKind; message: string; byte: number } {
  try {
    run();
  } catch (fault) {
    if (fault instanceof GribFault) return { kind: fault.kind, message: fault.message, byte: fault.byte };
    throw fault;
  }
  throw new Error('nothing was refused');
}

it('the sound message is read', () => {
  expect(() => readAll(sound)).not.toThrow();
});

describe('refused by name', () => {
  const cases: [string, number, number, number, number, GribFaultKind, string][] = [
    ['GRIB2 over PNG', 5, 10, 41, 2, 'unsupported', 'packing 5.41 (PNG) is not read'],
    ['GRIB2 over JPEG 2000', 5, 10, 40, 2, 'unsupported', 'packing 5.40 (JPEG 2000) is not read'],
    ['GRIB2 over CCSDS', 5, 10, 42, 2, 'unsupported', 'packing 5.42 (CCSDS) is not read'],
    [
      'another grid',
      3,
      13,
      40,
      2,
      'unsupported',
      'grid template 3.40 (Gaussian latitude and longitude) is not read',
    ],
    [
      'another product',
      4,
      8,
      5,
      2,
      'unsupported',
      'product template 4.5 (probability at a point in time) is not read',
    ],
    ['a product without a name', 4, 8, 999, 2, 'unsupported', 'product template 4.999 is not read'],
    ['an unknown earth', 3, 15, 9, 1, 'unsupported', 'shape of the earth 9'],
    ['a small earth', 3, 15, 3, 1, 'malformed', 'an earth of 0 m'],
    ['offset points', 3, 65, 0x41, 1, 'unsupported', 'scanning mode 65 with offset points'],
    ['rows of different lengths', 3, 31, 0xffff_ffff, 4, 'unsupported', 'rows of different lengths'],
    ['points that do not fit', 3, 7, 13, 4, 'malformed', '4 × 3 points, 13 claimed'],
    ['a predefined bitmap', 6, 6, 3, 1, 'unsupported', 'predefined bitmap 3'],
    ['a bitmap before, where none was', 6, 6, 254, 1, 'malformed', 'the bitmap before is asked for'],
    [
      'a bitmap that is not there',
      6,
      6,
      0,
      1,
      'truncated',
      'a bitmap of 12 points takes 2 octets, 0 are there',
    ],
    ['group splitting by row', 5, 22, 0, 1, 'unsupported', 'group splitting 0'],
    ['unknown missing values', 5, 23, 3, 1, 'malformed', 'missing value management 3'],
    ['differences of order 3', 5, 48, 3, 1, 'unsupported', 'differences of order 3'],
    ['more groups than values', 5, 32, 13, 4, 'malformed', '13 groups for 12 values'],
    ['no groups', 5, 32, 0, 4, 'malformed', '0 groups for 12 values'],
    ['a last group that is too long', 5, 43, 99, 4, 'malformed', 'ends at value'],
    ['a last group that is too short', 5, 43, 0, 4, 'malformed', 'section 5 says 12'],
    ['groups that are too wide', 5, 36, 33, 1, 'malformed', 'bits wide'],
    ['groups wider than the data', 5, 36, 32, 1, 'malformed', 'bits wide'],
    ['references beyond the data', 5, 20, 32, 1, 'truncated', 'octets'],
    ['33 bits a value', 5, 20, 33, 1, 'unsupported', '33 bits a value'],
    ['an infinite reference', 5, 12, 0x7f80_0000, 4, 'malformed', 'the reference value is no number'],
    ['an absurd scale', 5, 16, 0x7fff, 2, 'malformed', 'binary scale 32767'],
    ['values beyond single precision', 5, 16, 120, 2, 'malformed', 'binary scale 120 with decimal scale 0'],
    ['an unknown unit of time', 4, 18, 99, 1, 'unsupported', 'unit of time 99'],
    ['the 31st of February', 1, 14, 2, 1, 'malformed', 'is no time'],
    ['a section that is too short', 5, 1, 4, 4, 'malformed', 'section 5 claims 4 octets'],
    ['a section beyond the message', 5, 1, 0x7fff_ffff, 4, 'truncated', 'section 5 claims 2147483647 octets'],
    ['a section that eats the next', 3, 5, 5, 1, 'malformed', 'section 5 after section 1, expected 2 or 3'],
    ['a cone that is none', 3, 66, 0, 4, 'malformed', 'a cone that cuts at 0 and'],
  ];

  it.each(cases)('%s', (what, section, octet, value, octets, kind, words) => {
    const bytes = what === 'the 31st of February' ? dayMonth(31, 2) : spoilt(section, octet, value, octets);
    const fault = faultOf(() => readAll(bytes));
    expect(fault.message).toContain(words);
    expect(fault.kind).toBe(kind);
    expect(fault.byte).toBeGreaterThanOrEqual(16);
    expect(fault.byte).toBeLessThan(bytes.length);
  });

  it('says the byte', () => {
    expect(faultOf(() => readAll(spoilt(5, 10, 41, 2))).byte).toBe(at(5, 10));
    expect(faultOf(() => readAll(spoilt(3, 15, 9))).byte).toBe(at(3, 15));
  });
});

function dayMonth(day: number, month: number): Uint8Array {
  const bytes = sound.slice();
  bytes[at(1, 15)] = month;
  bytes[at(1, 16)] = day;
  return bytes;
}

describe('limits', () => {
  it('a field that would take more memory than allowed is refused before it is unpacked', () => {
    const fault = faultOf(() => readAll(sound, new Meter({ mostBytes: sound.length + 10, mostSteps: 1000 })));
    expect([fault.kind, fault.message.includes('allowed')]).toEqual(['too-large', true]);
  });

  it('a field that would take more steps than allowed is refused', () => {
    expect(faultOf(() => readAll(sound, new Meter({ mostBytes: 1e6, mostSteps: 12 }))).kind).toBe(
      'too-large',
    );
  });

  it('a message of nothing but small sections is refused before they fill the memory', () => {
    const four = [0, 0, 0, 5, 4];
    const [five, six, seven] = [
      [0, 0, 0, 5, 5],
      [0, 0, 0, 6, 6, 255],
      [0, 0, 0, 5, 7],
    ];
    const head = sound.slice(0, at(4, 1));
    const body = Array.from({ length: 3000 }, () => [...four, ...five, ...six, ...seven]).flat();
    const bytes = Uint8Array.from([...head, ...body, 0x37, 0x37, 0x37, 0x37]);
    new DataView(bytes.buffer).setUint32(12, bytes.length);
    const kinds = readFile(bytes, { mostBytes: 1e6, mostSteps: 1e6 }).faults.map(({ kind }) => kind);
    expect(kinds).toEqual(['too-large']);
    const { fields, faults } = readFile(bytes);
    expect([fields.length, faults.length]).toEqual([3000, 0]);
  });

  it('a few octets that claim four billion cells take no memory', () => {
    const cells: FieldSpec = {
      ...FIELD,
      cells: [7],
      ni: 1,
      nj: 1,
      packing: { kind: 'simple', spareBits: 0 },
    };
    const bytes = encodeMessage({ discipline: 0, fields: [{ ...cells, cells: [0] }] });
    const view = new DataView(bytes.buffer);
    for (const [section, octet, value] of [
      [3, 7, 0xfffe_0001],
      [3, 31, 0xffff],
      [3, 35, 0xffff],
      [5, 6, 0xfffe_0001],
    ] as const) {
      view.setUint32(at(section, octet, bytes), value);
    }
    expect(faultOf(() => readAll(bytes)).message).toMatch(/would take \d+ (?:steps|bytes), allowed/);
    expect(kernel.keptBytes).toBeLessThan(100_000);
  });
});

describe('messages in a file', () => {
  const wrapped = (heading: string): number[] => [...Buffer.from(heading, 'latin1'), ...sound];

  it('are found behind the headings of the gateway and without them', () => {
    const file = Uint8Array.from([
      ...wrapped('****0000000300****\nZRUZ98 KWBN 021049\r\r\n'),
      ...wrapped('\r\n'),
      ...sound,
    ]);
    const { messages, faults } = findMessages(file);
    expect(messages.map(({ length }) => length)).toEqual([sound.length, sound.length, sound.length]);
    expect(messages.map(({ start }) => file[start])).toEqual([0x47, 0x47, 0x47]);
    expect(faults).toEqual([]);
  });

  it('a message cut short, one of edition 1 and one without its end are told, and the next one is found', () => {
    const edition1 = sound.slice();
    edition1[7] = 1;
    const endless = sound.slice();
    endless[sound.length - 1] = 0;
    const cut = sound.slice(0, sound.length - 1);
    const file = Uint8Array.from([...edition1, ...endless, ...sound, ...cut]);
    const { messages, faults } = findMessages(file);
    expect(messages.map(({ start }) => start)).toEqual([2 * sound.length]);
    expect(faults.map(({ message }) => message)).toEqual([
      'GRIB edition 1 (byte 7)',
      `a message does not end with 7777 (byte ${2 * sound.length - 4})`,
      `a message claims ${sound.length} octets, ${sound.length - 1} are there (byte ${3 * sound.length + 8})`,
    ]);
  });

  it('a file of nothing but beginnings ends after a hundred faults', () => {
    const { messages, faults } = findMessages(Uint8Array.from(Buffer.from('GRIB'.repeat(100_000))));
    expect([messages.length, faults.length]).toEqual([0, 101]);
    expect(faults.at(-1)?.kind).toBe('too-large');
  });

  it('a message whose sections are spoilt takes none of the others along', () => {
    const { fields, faults } = readFile(Uint8Array.from([...sound, ...spoilt(5, 1, 4, 4), ...sound]));
    expect(fields.map((raw) => raw.message.start)).toEqual([0, 2 * sound.length]);
    expect(faults.map(({ byte }) => byte)).toEqual([sound.length + at(5, 1)]);
  });

  it('an empty file holds nothing', () => {
    expect(findMessages(new Uint8Array(0))).toEqual({ messages: [], faults: [] });
  });
});
