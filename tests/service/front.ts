// A front before the demo's stand-in that can break its grids and its alerts, and issue a warning.

import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Of the demo's north block. */
const FIRE_ZONE = 'XXZ221';

export interface Front {
  readonly baseUrl: string;
  /** Changed by whoever tests. */
  readonly state: {
    gridFails: boolean;
    alertsFail: boolean;
    /** A Red Flag Warning for the fire zone of the north block; null: none. */
    warning: Warning | null;
  };
  /** Where everything else comes from. */
  behind(baseUrl: string): void;
  close(): Promise<void>;
}

export interface Warning {
  readonly sent: string;
  readonly onset: string;
  readonly ends: string;
}

const feature = (times: Warning) => ({
  type: 'Feature',
  geometry: null,
  properties: {
    id: `urn:test:red-flag:${times.sent}`,
    affectedZones: [`https://api.weather.gov/zones/fire/${FIRE_ZONE}`],
    geocode: { UGC: [FIRE_ZONE] },
    // One event, whatever message tells of it: NWS Instruction 10-1703.
    parameters: { VTEC: ['/O.CON.KXXV.FW.W.0007.000000T0000Z-000000T0000Z/'] },
    ...times,
    status: 'Actual',
    messageType: 'Alert',
    event: 'Red Flag Warning',
    senderName: 'Office of the test',
  },
});

function answer(response: ServerResponse, status: number, body: string): void {
  const type = status === 200 ? 'application/geo+json' : 'application/problem+json';
  response.sendDate = false;
  response.writeHead(status, { 'content-type': type }).end(body);
}

export async function startFront(): Promise<Front> {
  let standIn = '';
  const state: Front['state'] = { gridFails: false, alertsFail: false, warning: null };
  const server = createServer((request, response) => {
    const path = request.url ?? '/';
    const isAlerts = path.startsWith('/alerts/');
    if ((state.gridFails && path.startsWith('/gridpoints/')) || (state.alertsFail && isAlerts)) {
      answer(response, 500, JSON.stringify({ type: 'x/UnexpectedProblem', title: 'Unexpected Problem' }));
    } else if (state.warning !== null && path === `/alerts/active?zone=${FIRE_ZONE}`) {
      answer(
        response,
        200,
        JSON.stringify({ type: 'FeatureCollection', features: [feature(state.warning)] }),
      );
    } else {
      fetch(`${standIn}${path}`)
        .then(async (found) => answer(response, found.status, await found.text()))
        .catch(() => response.destroy());
    }
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  return {
    baseUrl: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    state,
    behind(baseUrl) {
      standIn = baseUrl;
    },
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
