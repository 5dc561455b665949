// Which field is which element. Rows: NOAA-MDL degrib (genprobe.c, metaname.c) and grib2io tables; WMO code tables 4.2, 4.5.

import { describe, expect, it } from 'vitest';
import { meaningOf } from '#sources/grib/elements.ts';
import { GribFault } from '#sources/grib/fault.ts';
import { readHead } from '#sources/grib/field.ts';
import { Section } from '#sources/grib/section.ts';
import type { RawField } from '#sources/grib/walk-sections.ts';
import { fieldsOf } from './decoded.ts';
import { encodeMessage, type FieldSpec } from './encode.ts';
import { type ProductSpec, productSection } from './encode-heads.ts';
import { describeReal, realFields } from './real-files.ts';

const FIELD: FieldSpec = {
  ni: 1,
  nj: 1,
  scan: 0x40,
  cells: [1],
  reference: 0,
  binaryScale: 0,
  decimalScale: 0,
  packing: { kind: 'simple', spareBits: 0 },
  bitmap: 'none',
  from: 3,
};

/** 2026-03-04 06:00 UTC, as the encoder has it. */
const REFERENCE_MS = Date.UTC(2026, 2, 4, 6);

function withProduct(spec: Partial<ProductSpec>, discipline = 0): RawField {
  const [raw] = fieldsOf(encodeMessage({ discipline, fields: [FIELD] }));
  if (!raw) throw new Error('no field');
  const bytes = Uint8Array.from(productSection(spec));
  return { ...raw, product: new Section(bytes, 0, bytes.length, 4) };
}

const meaning = (raw: RawField) => meaningOf(readHead(raw), raw);
const of = (spec: Partial<ProductSpec>, discipline = 0) => meaning(withProduct(spec, discipline));

const INSTANTS: [string, number, number, [number, number | null], number][] = [
  ['temperature', 0, 0, [103, 2], -273.15],
  ['dewPoint', 0, 6, [103, 2], -273.15],
  ['relativeHumidity', 1, 1, [103, 2], 0],
  ['windDirection', 2, 0, [103, 10], 0],
  ['windSpeed', 2, 1, [103, 10], 0],
  ['windAlongI', 2, 2, [103, 10], 0],
  ['windAlongJ', 2, 3, [103, 10], 0],
  ['windGust', 2, 22, [103, 10], 0],
  ['windGust', 2, 22, [1, 0], 0],
  ['skyCover', 6, 1, [1, 0], 0],
  ['skyCover', 6, 1, [1, null], 0],
  ['mixingHeight', 19, 3, [10, 0], 0],
  ['mixingHeight', 19, 3, [10, null], 0],
];

describe('an instant', () => {
  it.each(INSTANTS)('%s is category %i number %i', (element, category, number, surface, offset) => {
    expect(of({ category, number, surface, fromHour: 5 })).toEqual({
      element,
      offset,
      fromMs: REFERENCE_MS + 5 * 3_600_000,
      toMs: REFERENCE_MS + 5 * 3_600_000,
      inPlace: null,
    });
  });

  it('says where another quantity stands for an element', () => {
    const found = of({ category: 3, number: 18, surface: [1, 0] });
    expect([found.element, found.inPlace]).toEqual(['mixingHeight', 'planetary boundary layer height']);
  });

  it.each(INSTANTS)(
    '%s of category %i number %i is refused at any other level, as a member, a percentile or of another discipline',
    (_, category, number) => {
      const others: [Partial<ProductSpec>, number][] = [
        [{ surface: [103, 80] }, 0],
        [{ surface: [1, 5] }, 0],
        [{ surface: [100, 50_000] }, 0],
        [{ surface: [103, null] }, 0],
        [{ template: 1 }, 0],
        [{ template: 6 }, 0],
        [{ template: 8, toHour: 6 }, 0],
        [{}, 10],
      ];
      const surface = INSTANTS.find((row) => row[1] === category && row[2] === number)?.[3] ?? [1, 0];
      for (const [other, discipline] of others) {
        expect(() => of({ category, number, surface, ...other }, discipline)).toThrow(
          'is none of the elements that are read',
        );
      }
    },
  );
});

describe('a span', () => {
  const rain = { category: 1, number: 8, surface: [1, 0] as const, fromHour: 6 };

  it('precipitation of one and of six hours', () => {
    for (const hours of [1, 6]) {
      const found = of({ ...rain, template: 8, toHour: 6 + hours });
      expect([found.element, found.toMs - found.fromMs]).toEqual([
        'quantitativePrecipitation',
        hours * 3_600_000,
      ]);
    }
  });

  it('the probability of a hundredth of an inch (0.254 mm) and more', () => {
    const found = of({ ...rain, template: 9, toHour: 18, probability: [1, 0, 0.254] });
    expect([found.element, found.fromMs - REFERENCE_MS]).toEqual([
      'probabilityOfPrecipitation',
      6 * 3_600_000,
    ]);
  });

  it('the probability of thunder', () => {
    const thunder = {
      category: 19,
      number: 2,
      surface: [1, 0] as const,
      template: 8,
      fromHour: 6,
      toHour: 9,
    };
    expect(of({ ...thunder, generating: 5 }).element).toBe('probabilityOfThunder');
    expect(() => of({ ...thunder, generating: 2 })).toThrow('thunderstorm probability');
  });

  it('any other limit, length, process or percentile is refused', () => {
    const others: Partial<ProductSpec>[] = [
      { template: 9, toHour: 18, probability: [1, 0, 2.54] },
      { template: 9, toHour: 18, probability: [0, 0, 0.254] },
      { template: 8, toHour: 30 },
      { template: 8, toHour: 7, process: 2 },
      { template: 8, toHour: 7, generating: 5 },
      { template: 10, toHour: 12 },
      { template: 0 },
    ];
    for (const other of others)
      expect(() => of({ ...rain, ...other }), JSON.stringify(other)).toThrow('is none of the elements');
  });

  it('a length that contradicts the end is malformed', () => {
    const raw = withProduct({ ...rain, template: 8, toHour: 7 });
    // Octet 39: the hour of the end.
    raw.product.bytes[raw.product.byteOf(39)] = 14;
    expect(() => meaning(raw)).toThrow('ends at another time than its length says');
  });
});

describe('refused by name', () => {
  it('local numbers that are known and not confirmed', () => {
    expect(() => of({ category: 2, number: 224, surface: [10, 0] })).toThrow(
      '0/2/224 (ventilation rate, local; its level is not confirmed), template 4.0, surface 10:0 is none of the elements that are read (byte 0)',
    );
  });

  it('numbers that nobody knows', () => {
    expect(() => of({ category: 99, number: 250 })).toThrow('0/99/250, template 4.0, surface 103:2 is none');
  });

  it('a test product', () => {
    const raw = withProduct({});
    raw.identification.bytes[raw.identification.byteOf(20)] = 1;
    expect(() => meaning(raw)).toThrow('is not operational (status 1)');
  });
});

/** Besides wind and humidity, which the page of the files lists, temperature and in GFS six hours of precipitation. */
const NAM = ['relativeHumidity', 'temperature', 'windAlongI', 'windAlongJ', 'windGust'];
const GFS = ['quantitativePrecipitation', ...NAM];

describeReal('real files', () => {
  const found = (file: string): string[] =>
    realFields(file).map((raw) => {
      try {
        return meaning(raw).element;
      } catch (fault) {
        if (fault instanceof GribFault) return fault.message.replace(/ \(byte .*/, '');
        throw fault;
      }
    });

  it.each([
    ['blend.t00z.core.f001.tmp.co.grib2', ['temperature']],
    ['ds.temp.bin', ['temperature', 'temperature']],
    ['hrrr.t00z.wrfsfcf00-HPBL.grib2', ['mixingHeight']],
    ['hrrr.t06z.wrfsfcf01-UGRD.grib2', ['windAlongI']],
  ])('%s is %j', (file, elements) => {
    expect(found(file)).toEqual(elements);
  });

  it('minimum humidity over half a day is no hourly humidity', () => {
    expect(found('ds.minrh.bin')[0]).toBe(
      '0/1/198 (minimum relative humidity, local), template 4.8, surface 103:2, minimum over 12 h is none of the elements that are read',
    );
  });

  it('of 181 fields of NAM and 343 of GFS only those near the ground are ours', () => {
    const ours = (file: string) =>
      found(file)
        .filter((name) => !name.includes(' '))
        .sort();
    expect(ours('nam.t00z.awp21100.tm00.grib2')).toEqual(NAM);
    expect(ours('gfs.t12z.pgrbf120.2p5deg.grib2')).toEqual(GFS);
  });
});
