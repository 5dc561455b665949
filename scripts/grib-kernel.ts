// npm run grib-kernel: compiles the vector kernel of the GRIB2 decoder and writes it as a module, so that the service runs
// without the compiler. The same source gives the same bytes; a test compares.

import { readFileSync, writeFileSync } from 'node:fs';

const FOLDER = new URL('../src/sources/grib/kernel/', import.meta.url);
const SOURCE = new URL('assembly/unpack.ts', FOLDER);
const TARGET = new URL('simd-module.ts', FOLDER);

const OPTIONS = [
  '-O3',
  '--noAssert',
  '--runtime',
  'stub',
  '--initialMemory',
  '1',
  '--enable',
  'simd',
  '--outFile',
  'unpack.wasm',
];

/** As much of the compiler as is used here; its own types would change the program's globals. */
interface Compiler {
  main(
    args: readonly string[],
    files: {
      readFile(name: string): string | null;
      writeFile(name: string, contents: Uint8Array): void;
      listFiles(): readonly string[];
    },
  ): Promise<{ readonly error: Error | null; readonly stderr: { toString(): string } }>;
}
const COMPILER: string = 'assemblyscript/asc';

/** The compiled kernel. Throws with what the compiler says. */
export async function compileKernel(): Promise<Uint8Array> {
  let binary: Uint8Array | null = null;
  const { main } = (await import(COMPILER)) as Compiler;
  const { error, stderr } = await main(['unpack.ts', ...OPTIONS], {
    readFile: (name) => (name === 'unpack.ts' ? readFileSync(SOURCE, 'utf8') : null),
    writeFile: (name, contents) => {
      if (name === 'unpack.wasm') binary = contents;
    },
    listFiles: () => [],
  });
  if (error || !binary)
    throw new Error(`the kernel does not compile: ${stderr.toString()}`, { cause: error });
  return binary;
}

/** The module that carries it. */
export function kernelModule(binary: Uint8Array): string {
  const text = Buffer.from(binary).toString('base64');
  return `// Made by \`npm run grib-kernel\` from assembly/unpack.ts; never edited by hand.

export const SIMD_MODULE_BASE64 =
  '${text}';
`;
}

if (import.meta.main) {
  const binary = await compileKernel();
  writeFileSync(TARGET, kernelModule(binary));
  console.log(`${binary.length} bytes`);
}
