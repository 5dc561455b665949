// npm test: installs what is missing, then Biome, the compiler (twice: all of it, and the core without Node's types) and
// vitest. Ends with one plain line, `N passed, N failed`. Words after -- choose test files and leave out the other checks.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
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

/** By file, how its tests ended; null where vitest left no report. */
function run(name, files) {
  const report = join(folder, `${name}.json`);
  const unhandled = join(folder, `${name}-unhandled`);
  const own = `--reporter=${join(ROOT, 'scripts/unhandled.mjs')}`;
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`, own];
  const { status } = spawnSync(
    'node',
    [join(ROOT, 'node_modules/vitest/vitest.mjs'), 'run', ...reporters, ...files],
    {
      cwd: ROOT,
      env: { ...env, PITWARD_BROWSER: browser ?? '', PITWARD_UNHANDLED: unhandled },
      stdio: 'inherit',
    },
  );
  try {
    const faults = Number(readFileSync(unhandled, 'utf8'));
    return { ok: status === 0, faults, files: filesOf(JSON.parse(readFileSync(report, 'utf8'))) };
  } catch (fault) {
    console.error(`vitest left no report: ${fault.message}`);
    return null;
  }
}

function filesOf({ testResults }) {
  const files = new Map();
  for (const { name, status, assertionResults } of testResults) {
    const count = (...states) => assertionResults.filter((one) => states.includes(one.status)).length;
    const ended = {
      passed: count('passed'),
      failed: count('failed'),
      skipped: count('pending', 'skipped', 'todo', 'disabled'),
    };
    // A file that fails before its first test counts too.
    if (status === 'failed' && ended.failed === 0) ended.failed = 1;
    files.set(name, ended);
  }
  return files;
}

const first = run('report', only);
const files = first?.files ?? new Map();
let ok = first?.ok ?? false;

/**
 * Where these tests decide what goes out, a few files that failed are run once more by themselves, told openly: browsers,
 * servers and processes of a busy machine. What is wrong fails again: properties are tried from the same seed there.
 */
const again = [...files].filter(([, { failed }]) => failed > 0).map(([name]) => name);
if (mustHave && first?.faults === 0 && again.length > 0 && again.length <= 4) {
  const names = again.map((name) => relative(ROOT, name)).join(', ');
  console.log(`\nFailed beside the others, and run once more by themselves: ${names}`);
  const second = run('again', again);
  ok = second?.ok ?? false;
  for (const [name, ended] of second?.files ?? []) files.set(name, ended);
  console.log(`${ok ? 'Passed' : 'FAILED'} by themselves: ${names}`);
}
for (const { passed, failed, skipped } of files.values()) {
  tally.passed += passed;
  tally.failed += failed;
  tally.skipped += skipped;
}
// Whatever else vitest found wrong, or that there was no test.
if (tally.failed === 0 && (!ok || tally.passed === 0)) tally.failed += 1;
rmSync(folder, { recursive: true, force: true });
if (tally.skipped > 0) console.log(`${tally.skipped} skipped; each says above what it lacks`);
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed > 0 ? 1 : 0);
