// npm test: installs what is missing, then Biome, the compiler (twice: all of it, and the core without Node's types) and
// vitest. Ends with one plain line, `N passed, N failed`. Words after -- choose test files and leave out the other checks.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBrowser, ensureDatabase } from './browser.mjs';
import { ensurePackages, ROOT, toolEnvironment } from './runtime.mjs';

ensurePackages();
const env = toolEnvironment();
const only = process.argv.slice(2);
const tally = { passed: 0, failed: 0, skipped: 0 };

const node = (file, ...args) =>
  spawnSync('node', [join(ROOT, file), ...args], { cwd: ROOT, env, stdio: 'inherit' }).status === 0;

function check(name, ok) {
  console.log(`${ok ? 'ok' : 'FAILED'}  ${name}`);
  tally[ok ? 'passed' : 'failed'] += 1;
}

if (only.length === 0) {
  const tsc = 'node_modules/typescript/bin/tsc';
  check('biome', node('node_modules/@biomejs/biome/bin/biome', 'check', '.'));
  check('types of everything', node(tsc, '--noEmit'));
  check('types of the core, which has no Node', node(tsc, '--noEmit', '-p', 'src/core/tsconfig.json'));
  check('types of the scripts of the pages', node(tsc, '--noEmit', '-p', 'src/publish/phone/tsconfig.json'));
}

// Where these tests decide what goes out, none of them may be left out.
const mustHave = process.env.CI === 'true' && only.length === 0;
const browser = ensureBrowser();
if (!browser) console.log('No browser here: the tests that need one say so and are skipped.');
const hasDatabase = ensureDatabase();
if (!hasDatabase) console.log('No PostgreSQL server here: the tests of the store on it are skipped.');
if (mustHave) {
  check('a browser for the pages', browser !== null);
  check('a PostgreSQL server for the store', hasDatabase);
}

const folder = mkdtempSync(join(tmpdir(), 'pitward-test-'));
const report = join(folder, 'report.json');
const vitest = spawnSync(
  'node',
  [
    join(ROOT, 'node_modules/vitest/vitest.mjs'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...only,
  ],
  { cwd: ROOT, env: { ...env, PITWARD_BROWSER: browser ?? '' }, stdio: 'inherit' },
);
let counted = false;
try {
  const results = JSON.parse(readFileSync(report, 'utf8'));
  tally.passed += results.numPassedTests;
  tally.failed += results.numFailedTests;
  tally.skipped += results.numPendingTests + results.numTodoTests;
  counted = results.numTotalTests > 0;
  // A file that fails before its first test counts too.
  if (vitest.status !== 0 && results.numFailedTests === 0) tally.failed += 1;
} catch (fault) {
  console.error(`vitest left no report: ${fault.message}`);
}
if (!counted) tally.failed += 1;
rmSync(folder, { recursive: true, force: true });
if (tally.skipped > 0) console.log(`${tally.skipped} skipped; each says above what it lacks`);
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed > 0 || vitest.status !== 0 ? 1 : 0);
