// npm start: installs what is missing and serves the demo. Further words after -- go to `pitward serve`.

import { ensurePackages, runTypeScript } from './runtime.mjs';

ensurePackages();
runTypeScript('src/main.ts', ['serve', '--demo', ...process.argv.slice(2)]);
