// npm run client: writes client/pitward.d.ts anew. A test compares.

import { writeFileSync } from 'node:fs';
import { startRunning } from '../tests/service/running.ts';
import { typesOf } from './make-types.ts';

const running = await startRunning('2026-03-03T01:10:00Z', undefined, false);
const document = (await running.service.app.inject({ url: '/openapi.json' })).json();
await running.close();
writeFileSync(new URL('pitward.d.ts', import.meta.url), await typesOf(document));
