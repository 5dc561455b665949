// (l) GRIB2 fields decoded by both kernels, against a plain copy of as many values.

import { existsSync, readFileSync } from 'node:fs';
import { decodeField, gridOf } from '#sources/grib/field.ts';
import { findMessages } from '#sources/grib/find-messages.ts';
import type { Kernel } from '#sources/grib/kernel/kernel.ts';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import { SimdKernel } from '#sources/grib/kernel/simd.ts';
import { Meter } from '#sources/grib/limits.ts';
import { type RawField, walkSections } from '#sources/grib/walk-sections.ts';
import { line, sideBySide } from './measure.ts';

const DATA = new URL('../../shared/data/grib/', import.meta.url);

/** Large real fields, one for each kind of packing. */
const FIELDS = [
  ['NDFD minimum humidity, 5.3, missing', 'ds.minrh.bin'],
  ['NDFD temperature, 5.3, missing', 'ds.temp.bin'],
  ['NDFD fire outlook, 5.2', 'ds.critfireo.bin'],
  ['NBM temperature, 5.3, small groups', 'blend.t00z.core.f001.tmp.co.grib2'],
  ['HRRR boundary layer, 5.3', 'hrrr.t00z.wrfsfcf00-HPBL.grib2'],
  ['HRRR wind, 5.0', 'hrrr.t06z.wrfsfcf01-UGRD.grib2'],
  ['air quality, 5.3, bitmap', 'aqm.t12z.ave_1hr_pm25-PMTF.grib2'],
] as const;

export function benchGrib(): void {
  line('(l) GRIB2: decoding one field, times a copy of its values');
  if (!existsSync(DATA)) {
    line('    skipped: the real files (../shared/data/grib) are not at hand');
    return;
  }
  const kernels = [new PlainKernel(), new SimdKernel()];
  for (const [name, file] of FIELDS) benchField(name, firstField(file), kernels);
}

function firstField(file: string): RawField {
  const bytes = new Uint8Array(readFileSync(new URL(file, DATA)));
  const [message] = findMessages(bytes).messages;
  const raw = message && walkSections(bytes, message, new Meter())[0];
  if (!raw) throw new Error(`no field in ${file}`);
  return raw;
}

function benchField(name: string, raw: RawField, kernels: readonly Kernel[]): void {
  const grid = gridOf(raw);
  const from = new Float32Array(grid.ni * grid.nj);
  const to = new Float32Array(grid.ni * grid.nj);
  const [copy, plain, simd] = sideBySide(
    [
      { name: 'copy', run: () => to.set(from) },
      ...kernels.map((kernel) => ({ name: kernel.name, run: () => decodeField(raw, grid, kernel) })),
    ],
    { rounds: 25, calls: 2, warmUp: 15 },
  );
  if (!(copy && plain && simd)) return;
  const ms = (us: number): string => (us / 1000).toFixed(1);
  line(
    `    ${name}: copy ${ms(copy.medianUs)} ms, plain ${ms(plain.medianUs)} ms (${plain.ratio.toFixed(1)} ×), vectors ${ms(simd.medianUs)} ms (${simd.ratio.toFixed(1)} ×); plain ÷ vectors ${(plain.medianUs / simd.medianUs).toFixed(2)}`,
  );
}
