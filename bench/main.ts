// npm run bench: everything, or the letters given (a to m, s, w).

import { cpus } from 'node:os';
import { benchBoard } from './board.ts';
import { benchCycle } from './cycle.ts';
import { benchEvents } from './events.ts';
import { benchGrib } from './grib.ts';
import { benchHooks } from './hooks.ts';
import { benchHttp } from './http.ts';
import { benchList } from './list.ts';
import { line } from './measure.ts';
import { benchPages } from './pages.ts';
import { benchPipeline, benchSites } from './pipeline.ts';
import { benchRestart } from './restart.ts';
import { benchStartUp } from './start-up.ts';
import { benchStore } from './store.ts';
import { benchTakeover } from './takeover.ts';
import { benchWatch } from './watch.ts';

const asked = process.argv.slice(2);
const wants = (letter: string): boolean => asked.length === 0 || asked.includes(letter);

line(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`);
if (wants('a')) benchPipeline();
if (wants('b')) await benchHttp();
if (wants('c')) benchSites();
if (wants('d')) await benchStartUp();
if (wants('e')) await benchStore();
if (wants('f')) await benchCycle();
if (wants('g')) await benchTakeover();
if (wants('h')) await benchRestart();
if (wants('i')) await benchWatch();
if (wants('j')) await benchList();
if (wants('k')) await benchBoard();
if (wants('l')) benchGrib();
if (wants('m')) await benchPages();
if (wants('s')) await benchEvents();
if (wants('w')) await benchHooks();
