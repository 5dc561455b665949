// A stand-in for the NWS API on this machine's loopback: points, raw grids, alerts and stations of the demonstration, with the
// headers, redirects and problems of the real one. Reads the clock that it is given.

import type { IncomingMessage, ServerResponse } from 'node:http';
import { messageOf } from '#errors.ts';
import { type Answer, invalidPoint, problem } from './answer.ts';
import { cellNear, DEMO_CELLS, type DemoCell } from './cells.ts';
import { alertsDocument, gridpointDocument, pointDocument, problemDocument } from './documents.ts';
import type { WindTurn } from './observed-weather.ts';
import { stationAnswer } from './station-answers.ts';
import { updateTimeMs } from './synthetic-gridpoint.ts';

// Not imported: that would ask for all that the module has, and load a WebSocket client of the runtime with it.
const { createServer } = process.getBuiltinModule('node:http');

export interface StandInOptions {
  /** Epoch ms; asked anew at every request. */
  readonly nowMs: () => number;
  /** 0, the default: any free port. */
  readonly port?: number;
  /** A turn of the observed wind that no forecast foresaw; asked anew at every request, null for none. */
  readonly turn?: () => WindTurn | null;
}

export interface StandIn {
  /** `http://127.0.0.1:49152`, no slash at the end. */
  readonly baseUrl: string;
  close(): Promise<void>;
}

export function startStandIn({ nowMs, port = 0, turn = () => null }: StandInOptions): Promise<StandIn> {
  let baseUrl = '';
  const server = createServer((request, response) => {
    try {
      const moment = nowMs();
      send(request, response, answerTo(request, moment, baseUrl, turn()), moment, baseUrl);
    } catch (fault) {
      const told = {
        status: 500,
        kind: 'UnexpectedProblem',
        title: 'Unexpected Problem',
        detail: messageOf(fault),
      };
      finish(response, 500, PROBLEM_TYPE, problemDocument(told, request.url ?? '/', baseUrl));
    }
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      const address = server.address();
      baseUrl = `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : port}`;
      resolve({ baseUrl, close: () => closeServer(server) });
    });
  });
}

/** Closing twice is no fault. */
function closeServer(server: ReturnType<typeof createServer>): Promise<void> {
  if (!server.listening) return Promise.resolve();
  return new Promise((resolve, reject) => {
    server.close((fault) => (fault ? reject(fault) : resolve()));
    server.closeAllConnections();
  });
}

const POINT = /^\/points\/(-?\d+(?:\.\d+)?),(-?\d+(?:\.\d+)?)$/;
const GRIDPOINT = /^\/gridpoints\/([A-Z]{3})\/(\d+),(\d+)$/;

function answerTo(request: IncomingMessage, nowMs: number, baseUrl: string, turn: WindTurn | null): Answer {
  if (request.method !== 'GET')
    return problem(405, 'MethodNotAllowed', 'Method Not Allowed', 'Only GET is answered');
  const url = URL.parse(request.url ?? '/', baseUrl);
  if (url === null) return problem(400, 'BadRequest', 'Bad Request', 'The address cannot be read');
  const point = POINT.exec(url.pathname);
  if (point) return pointAnswer(point[1] as string, point[2] as string, baseUrl);
  const grid = GRIDPOINT.exec(url.pathname);
  if (grid) return gridAnswer(`${grid[1]} ${grid[2]},${grid[3]}`, nowMs, baseUrl);
  if (url.pathname === '/alerts/active') return alertsAnswer(url.searchParams, nowMs, baseUrl);
  const station = stationAnswer(url, nowMs, baseUrl, turn);
  if (station) return station;
  return problem(404, 'NotFound', 'Not Found', 'Not Found');
}

function pointAnswer(latText: string, lonText: string, baseUrl: string): Answer {
  const lat = canonical(latText);
  const lon = canonical(lonText);
  if (lat !== latText || lon !== lonText) return { kind: 'redirect', location: `/points/${lat},${lon}` };
  const cell = cellNear({ latDeg: Number(lat), lonDeg: Number(lon) });
  if (cell === null) return invalidPoint(`${lat},${lon}`);
  return {
    kind: 'document',
    document: pointDocument(cell, lat, lon, baseUrl),
    maxAgeS: 21_600,
    modifiedMs: null,
  };
}

/** At most four decimals, no zeros at the end, no negative zero. */
const canonical = (text: string): string => String(Number(Number(text).toFixed(4)) + 0);

function gridAnswer(name: string, nowMs: number, baseUrl: string): Answer {
  const cell = DEMO_CELLS.find((c) => `${c.gridId} ${c.gridX},${c.gridY}` === name);
  if (cell === undefined) {
    return problem(404, 'InvalidGridpoint', 'Invalid Gridpoint', `There is no grid cell ${name}`);
  }
  const modifiedMs = updateTimeMs(nowMs, cell.gridX, cell.gridY);
  return { kind: 'document', document: gridpointDocument(cell, nowMs, baseUrl), maxAgeS: 900, modifiedMs };
}

/** All, or by `point` or by `zone` (several with commas), not both; anything else in the query is refused, as there. */
function alertsAnswer(query: URLSearchParams, nowMs: number, baseUrl: string): Answer {
  const keys = [...query.keys()].filter((name) => name !== 'message_type');
  const [key] = keys;
  const type = query.get('message_type') ?? 'alert';
  if (type !== 'alert' && type !== 'cancel') {
    return problem(400, 'BadRequest', 'Bad Request', 'Expected message_type alert or cancel');
  }
  if (keys.length > 1 || (key !== undefined && key !== 'point' && key !== 'zone')) {
    return problem(400, 'BadRequest', 'Bad Request', 'Expected one parameter at most, point or zone');
  }
  const text = key === undefined ? 'the whole country' : (query.get(key) ?? '');
  const zones = zonesAsked(key, text);
  if (zones === null) return invalidPoint(text);
  if (zones.some((zone) => !/^[A-Z]{2}[CZ]\d{3}$/.test(zone))) {
    return problem(400, 'BadRequest', 'Bad Request', `No zone is named ${text}`);
  }
  const title = `Current watches, warnings, and advisories for ${text}`;
  // The office of the demonstration lets its alerts run to their end.
  const standing = type === 'cancel' ? [] : zones;
  const { document, changedMs } = alertsDocument(standing, title, nowMs, baseUrl);
  return { kind: 'document', document, maxAgeS: 30, modifiedMs: changedMs };
}

function zonesAsked(key: 'point' | 'zone' | undefined, text: string): string[] | null {
  if (key === undefined) return DEMO_CELLS.flatMap((c) => [c.forecastZone, c.county, c.fireZone]);
  return key === 'zone' ? text.split(',') : zonesOfPoint(text);
}

/** A query by point looks at the public zone and the county: alerts for fire zones without an outline stay unseen. */
function zonesOfPoint(text: string): string[] | null {
  const match = /^(-?\d+(?:\.\d+)?),(-?\d+(?:\.\d+)?)$/.exec(text);
  const cell: DemoCell | null = match
    ? cellNear({ latDeg: Number(match[1]), lonDeg: Number(match[2]) })
    : null;
  return cell === null ? null : [cell.forecastZone, cell.county];
}

function send(
  request: IncomingMessage,
  response: ServerResponse,
  answer: Answer,
  nowMs: number,
  baseUrl: string,
): void {
  const target = request.url ?? '/';
  // The clock of the demonstration may be another than the machine's: a document must not be newer than its answer.
  response.setHeader('Date', new Date(nowMs).toUTCString());
  response.setHeader('Vary', 'Accept,Feature-Flags,Accept-Language');
  if (answer.kind !== 'document') {
    const redirect = {
      status: 301,
      kind: 'AdjustPointPrecision',
      title: 'Adjusting Precision Of Point Coordinate',
    };
    const told =
      answer.kind === 'problem' ? answer.problem : { ...redirect, detail: 'At most four decimals are taken' };
    if (answer.kind === 'redirect') response.setHeader('Location', answer.location);
    if (told.status === 405) response.setHeader('Allow', 'GET');
    finish(response, told.status, PROBLEM_TYPE, problemDocument(told, target, baseUrl));
    return;
  }
  response.setHeader('Cache-Control', `public, max-age=${answer.maxAgeS}, s-maxage=3600`);
  response.setHeader('Expires', new Date(nowMs + answer.maxAgeS * 1000).toUTCString());
  if (answer.modifiedMs !== null) {
    response.setHeader('Last-Modified', new Date(answer.modifiedMs).toUTCString());
    const since = Date.parse(request.headers['if-modified-since'] ?? '');
    // The header knows whole seconds only.
    if (since >= Math.floor(answer.modifiedMs / 1000) * 1000) {
      response.writeHead(304).end();
      return;
    }
  }
  finish(response, 200, 'application/geo+json', answer.document);
}

const PROBLEM_TYPE = 'application/problem+json';

function finish(response: ServerResponse, status: number, type: string, document: unknown): void {
  const bytes = Buffer.from(`${JSON.stringify(document, null, 1)}\n`);
  response.writeHead(status, { 'Content-Type': type, 'Content-Length': bytes.byteLength });
  response.end(bytes);
}
