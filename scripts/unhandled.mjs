// For scripts/test.mjs: how many faults vitest met outside every test, which its report of the tests leaves out.

import { writeFileSync } from 'node:fs';

// biome-ignore lint/style/noDefaultExport: vitest reads it so
export default class Unhandled {
  onTestRunEnd(_modules, faults) {
    writeFileSync(process.env.PITWARD_UNHANDLED ?? '', String(faults.length));
  }
}
