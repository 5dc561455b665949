// What browsers must not do with a page. Worked out once by helmet, and then laid on every page.

import type { IncomingMessage, ServerResponse } from 'node:http';
import helmet from 'helmet';

/** Of a page that carries one inline style sheet and nothing else; forms and scripts are let in where a page has them. */
const PAGE_SOURCES = {
  defaultSrc: ["'none'"],
  styleSrc: ["'unsafe-inline'"],
  imgSrc: ['data:'],
  baseUri: ["'none'"],
  formAction: ["'none'"],
  frameAncestors: ["'none'"],
};

/** Those that only mean something to browsers no longer in use are left out; HTTPS, and so HSTS, is the proxy's. */
const WANTED = {
  contentSecurityPolicy: { useDefaults: false, directives: PAGE_SOURCES },
  crossOriginOpenerPolicy: { policy: 'same-origin' },
  crossOriginResourcePolicy: { policy: 'same-origin' },
  referrerPolicy: { policy: 'no-referrer' },
  frameguard: { action: 'deny' },
  strictTransportSecurity: false,
  originAgentCluster: false,
  dnsPrefetchControl: false,
  ieNoOpen: false,
  permittedCrossDomainPolicies: false,
  xssFilter: false,
} as const;

export function pageHeaders(): Readonly<Record<string, string>> {
  const headers: Record<string, string> = {};
  const laidOn = {
    setHeader: (name: string, value: string) => Object.assign(headers, { [name.toLowerCase()]: value }),
    removeHeader: () => undefined,
  } as unknown as ServerResponse;
  let fault: unknown = new Error('helmet gave no headers');
  helmet(WANTED)({} as IncomingMessage, laidOn, (told?: unknown) => {
    fault = told ?? null;
  });
  if (fault !== null) throw fault;
  return headers;
}
