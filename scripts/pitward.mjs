#!/usr/bin/env node
// The command line: installs what is missing, then runs src/main.ts on the project's own Node.

import { ensurePackages, runTypeScript } from './runtime.mjs';

ensurePackages();
runTypeScript('src/main.ts', process.argv.slice(2));
