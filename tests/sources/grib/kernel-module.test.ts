import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { decodeAsSent } from '#sources/grib/field.ts';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import { SimdKernel } from '#sources/grib/kernel/simd.ts';
import { compileKernel, kernelModule } from '../../../scripts/grib-kernel.ts';
import { describeReal, fileFigures, realFields } from './real-files.ts';

it('the module that is kept is what its source compiles to, byte for byte', async () => {
  const kept = new URL('../../../src/sources/grib/kernel/simd-module.ts', import.meta.url);
  expect(kernelModule(await compileKernel())).toBe(readFileSync(kept, 'utf8'));
});

describeReal('both kernels give the same bits', () => {
  const plain = new PlainKernel();
  const simd = new SimdKernel();

  it.each(fileFigures().filter(({ file }) => !/jpeg|png/.test(file)))('$file', ({ file }) => {
    for (const raw of realFields(file)) {
      const ours = decodeAsSent(raw, plain);
      const other = decodeAsSent(raw, simd);
      expect(Buffer.compare(bytesOf(ours), bytesOf(other)), file).toBe(0);
    }
  });
});

const bytesOf = ({ buffer, byteOffset, byteLength }: Float32Array): Buffer =>
  Buffer.from(buffer, byteOffset, byteLength);
