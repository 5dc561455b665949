// npm run bench: side-by-side measurements of one run, printed as ratios.

import { ensurePackages, runProgram } from './runtime.mjs';

ensurePackages();
runProgram('bench/main.ts', process.argv.slice(2));
