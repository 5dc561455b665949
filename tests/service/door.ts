// The demo's stand-in behind a door that counts what goes through it, can be held shut for grids, and can make a grid older.

import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { startStandIn } from '#demo/stand-in.ts';

export interface Door {
  readonly baseUrl: string;
  /** Requests for grids that wait at the door and whose askers are still there. */
  waiting(): number;
  /** From now on grids go through. */
  open(): void;
  /** Grids that reached whoever asked, by cell: `XXV 41,77`. */
  readonly delivered: ReadonlyMap<string, number>;
  /** When the grid of a cell was made, as it went through [epoch ms]. */
  readonly madeMs: ReadonlyMap<string, number>;
  close(): Promise<void>;
}

const GRID = /^\/gridpoints\/([A-Z]+)\/(\d+,\d+)$/;

/** `madeMsOf` gives another moment of making for a cell; asked once, when its grid first goes through. */
export async function startDoor(madeMsOf: (cell: string) => number | null): Promise<Door> {
  const standIn = await startStandIn({ nowMs: Date.now });
  const delivered = new Map<string, number>();
  const madeMs = new Map<string, number>();
  const opened = Promise.withResolvers<void>();
  const atDoor = new Set<ServerResponse>();

  const gridOf = (cell: string, text: string): string => {
    const document = JSON.parse(text) as { properties: { updateTime: string } };
    const made = madeMs.get(cell) ?? madeMsOf(cell) ?? Date.parse(document.properties.updateTime);
    madeMs.set(cell, made);
    document.properties.updateTime = new Date(made).toISOString().replace(/\.\d{3}Z$/, '+00:00');
    return JSON.stringify(document);
  };
  const server = createServer(async (request, response) => {
    const path = request.url ?? '/';
    const [, office, xy] = GRID.exec(path) ?? [];
    const cell = office === undefined ? null : `${office} ${xy}`;
    if (cell !== null) {
      atDoor.add(response);
      response.once('close', () => atDoor.delete(response));
      await opened.promise;
      atDoor.delete(response);
      if (response.destroyed) return;
    }
    const answer = await fetch(`${standIn.baseUrl}${path}`);
    const text = await answer.text();
    if (response.destroyed) return;
    if (cell !== null && answer.status === 200) delivered.set(cell, (delivered.get(cell) ?? 0) + 1);
    response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? '' });
    response.end(cell !== null && answer.status === 200 ? gridOf(cell, text) : text);
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  return {
    baseUrl: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    waiting: () => atDoor.size,
    open: opened.resolve,
    delivered,
    madeMs,
    async close() {
      opened.resolve();
      server.closeAllConnections();
      server.close();
      await standIn.close();
    },
  };
}
