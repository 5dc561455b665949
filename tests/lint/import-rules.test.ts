import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';

// A copy of the rules in a folder of its own, so that bad files never stand in the tree.
const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const BAD = join(ROOT, 'fixtures/lint');
let tree = '';

const biome = (file: string): string => {
  const bin = join(ROOT, 'node_modules/@biomejs/biome/bin/biome');
  const done = spawnSync(process.execPath, [bin, 'lint', '--vcs-enabled=false', file], {
    cwd: tree,
    encoding: 'utf8',
  });
  return `${done.status} ${done.stdout}${done.stderr}`;
};

/** Puts a fixture where its first line says: `// AS src/core/rules/bad.ts EXPECT noRestrictedImports`. */
function place(fixture: string): { file: string; expected: string } {
  const text = readFileSync(join(BAD, fixture), 'utf8');
  const [, file = '', expected = ''] = /^\/\/ AS (\S+) EXPECT (.+)$/m.exec(text) ?? [];
  mkdirSync(dirname(join(tree, file)), { recursive: true });
  writeFileSync(join(tree, file), text);
  return { file, expected };
}

const fixtures = readdirSync(BAD).filter((name) => name.endsWith('.txt'));

beforeAll(() => {
  tree = mkdtempSync(join(ROOT, '.tmp-lint-'));
  for (const name of ['biome.json', 'package.json', 'tsconfig.json']) {
    writeFileSync(join(tree, name), readFileSync(join(ROOT, name)));
  }
  mkdirSync(join(tree, 'src/core'), { recursive: true });
  writeFileSync(join(tree, 'src/core/tsconfig.json'), readFileSync(join(ROOT, 'src/core/tsconfig.json')));
  symlinkSync(join(ROOT, 'node_modules'), join(tree, 'node_modules'));
});

afterAll(() => rmSync(tree, { recursive: true, force: true }));

it('has bad files to lint', () => {
  expect(fixtures.length).toBeGreaterThanOrEqual(8);
});

it.each(fixtures.filter((f) => !f.startsWith('types-')))('the linter refuses %s', (fixture) => {
  const { file, expected } = place(fixture);
  const said = biome(file);
  expect(said).toContain(expected);
  expect(said.startsWith('1 ')).toBe(true);
});

it('the linter lets a good file pass, so that the refusals above mean something', () => {
  const file = 'src/core/rules/good.ts';
  mkdirSync(dirname(join(tree, file)), { recursive: true });
  writeFileSync(
    join(tree, file),
    "import type { Span } from '#core/units/time.ts';\n\nexport const length = (s: Span): number => s.toMs - s.fromMs;\n",
  );
  expect(biome(file)).toMatch(/^0 /);
});

it('the compiler refuses the world in the core', () => {
  const { expected } = place('types-in-core.txt');
  const tsc = join(ROOT, 'node_modules/typescript/bin/tsc');
  const done = spawnSync(process.execPath, [tsc, '--noEmit', '-p', 'src/core/tsconfig.json'], {
    cwd: tree,
    encoding: 'utf8',
  });
  expect(done.status).not.toBe(0);
  for (const name of expected.split(' ')) expect(done.stdout).toContain(`'${name}'`);
});
