// Nobody who asks for no map waits for the atlas and its libraries: they are loaded with the first one.

import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';

const SCRIPT = `
import { registerHooks } from 'node:module';
const loaded = [];
registerHooks({ resolve(name, context, next) { loaded.push(name); return next(name, context); } });
await import('#publish/api/server.ts');
const before = [...loaded];
await import('#publish/map/board-map.ts');
console.log(JSON.stringify({ before, after: loaded.slice(before.length) }));
`;

it('starting the server loads no library of maps', { timeout: 60_000 }, () => {
  const out = execFileSync(process.execPath, ['--input-type=module', '--eval', SCRIPT], { encoding: 'utf8' });
  const { before, after } = JSON.parse(out) as { before: string[]; after: string[] };
  expect(before).toContain('fastify');
  for (const name of ['d3-geo', 'topojson-client', '#publish/map/board-map.ts'])
    expect(before).not.toContain(name);
  for (const name of ['d3-geo', 'topojson-client']) expect(after).toContain(name);
});
