// A process that answers for the weather service of the invented nation, as fast as it can: points, grids, alerts. It is
// told which issue of the forecasts is the newest, and tells what it was asked for.

import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { HOUR_MS } from '#core/units/time.ts';
import { alertsDocument, pointDocument } from '#demo/documents.ts';
import { redFlagAt } from '#demo/red-flag.ts';
import { datedDocument } from './dated-document.ts';
import { cellAt, indexAtPlace, indexOfCell } from './nation.ts';

const POINT = /^\/points\/(-?[\d.]+),(-?[\d.]+)$/;
const GRID = /^\/gridpoints\/[A-Z]{3}\/(\d+),(\d+)$/;
const ALERTS = /^\/alerts\/active\?(zone|point)=([^&]+)/;

const startedMs = Date.now();
let issue = 0;
let asked: string[] = [];
let listed: Buffer | null = null;

/** The documents of the first issue are three to four hours old, those of each further one an hour younger. */
const issuedUntilMs = (): number => startedMs - 3 * HOUR_MS + issue * HOUR_MS;

function answerTo(path: string): Buffer | null {
  const point = POINT.exec(path);
  if (point) {
    const [, latText = '', lonText = ''] = point;
    const cell = cellAt(indexAtPlace(Number(latText), Number(lonText)));
    return json(
      pointDocument(
        { ...cell, siteId: '', story: 'turningWind', mixingEndsAfterH: null },
        latText,
        lonText,
        baseUrl,
      ),
    );
  }
  const grid = GRID.exec(path);
  if (grid) {
    const index = indexOfCell(Number(grid[1]), Number(grid[2]));
    return datedDocument(cellAt(index), issuedUntilMs(), index + issue).bytes;
  }
  if (path === '/alerts/active') {
    listed ??= allAlerts();
    return listed;
  }
  const alerts = ALERTS.exec(path);
  if (alerts) {
    const zones = alerts[1] === 'zone' ? [alerts[2] ?? ''] : [];
    return json(alertsDocument(zones, `Alerts for ${alerts[2]}`, startedMs, baseUrl).document);
  }
  return null;
}

/** As many alerts as recorded lists of the country have: of the zone that is warned, and of zones that no cell has. */
function allAlerts(): Buffer {
  const zones = ['XXZ238', ...Array.from({ length: 149 }, (_, i) => `YYZ${String(i).padStart(3, '0')}`)];
  const features = zones.flatMap((fireZone) => {
    const cell = {
      ...cellAt(0),
      fireZone,
      siteId: '',
      story: 'dryNorthWind',
      mixingEndsAfterH: null,
    } as const;
    return redFlagAt(cell, startedMs, baseUrl).features;
  });
  const updated = new Date(startedMs).toISOString();
  return json({ type: 'FeatureCollection', features, title: 'All alerts', updated });
}

const json = (document: unknown): Buffer => Buffer.from(JSON.stringify(document));

const server = createServer((request, response) => {
  const path = request.url ?? '/';
  asked.push(path);
  const bytes = answerTo(path);
  if (bytes === null) {
    response.writeHead(404, { 'Content-Type': 'application/problem+json' }).end('{}');
    return;
  }
  response.writeHead(200, {
    'Content-Type': 'application/geo+json',
    'Content-Length': bytes.byteLength,
    'Cache-Control': 'max-age=0',
  });
  response.end(bytes);
});

let baseUrl = '';
server.listen(0, '127.0.0.1', () => {
  baseUrl = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  process.send?.(baseUrl);
});

/** Every message begins a new issue, and is answered with the paths asked for since the last one. */
process.on('message', () => {
  process.send?.(asked);
  asked = [];
  issue += 1;
});
