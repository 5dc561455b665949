// npm start: installs what is missing and serves the demo. Further words after -- go to `pitward serve`.

import { ensurePackages, runProgram } from './runtime.mjs';

ensurePackages();
runProgram('src/main.mjs', ['serve', '--demo', ...process.argv.slice(2)]);
