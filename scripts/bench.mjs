// npm run bench: side-by-side measurements of one run, printed as ratios.

import { ensurePackages, runTypeScript } from './runtime.mjs';

ensurePackages();
runTypeScript('bench/main.ts', process.argv.slice(2));
