// Entry of the program. Refuses an older Node in one line before anything that needs a newer one is loaded. Not TypeScript:
// where all else is compiled already, a start needs no compiler.

import module from 'node:module';

const major = Number(process.versions.node.split('.')[0]);
if (major < 26) {
  process.stderr.write(
    `Pitward needs Node 26 or newer; this is ${process.version}. Start it with "npm start" or "npm run pitward".\n`,
  );
  process.exit(1);
}
// Keeps what was compiled for the next start.
module.enableCompileCache?.();
const { runCommandLine } = await import('#cli/cli.ts');
process.exitCode = await runCommandLine(process.argv.slice(2));
