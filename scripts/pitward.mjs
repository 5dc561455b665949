#!/usr/bin/env node
// The command line: installs what is missing, then runs src/main.mjs on the project's own Node.

import { ensurePackages, runProgram } from './runtime.mjs';

ensurePackages();
runProgram('src/main.mjs', process.argv.slice(2));
