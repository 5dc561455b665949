// What a request says of where it comes from, and whether a browser sent it.

import type { FastifyRequest } from 'fastify';
import type { RequestOrigin } from '#publish/access/cross-site.ts';

/** By HTTPS, here or to a proxy that is trusted. */
export const isSecure = ({ protocol }: Pick<FastifyRequest, 'protocol'>): boolean => protocol === 'https';

export function originOf({ host, headers }: Pick<FastifyRequest, 'host' | 'headers'>): RequestOrigin {
  const site = headers['sec-fetch-site'];
  return { host, origin: headers.origin, secFetchSite: typeof site === 'string' ? site : undefined };
}

/** It is to be shown to somebody. */
export const asksForPage = ({ headers }: Pick<FastifyRequest, 'headers'>): boolean =>
  headers.accept?.includes('text/html') ?? false;

/**
 * A browser, by a page or from a script of one: it would open its own box for a password where it is told of Basic, over the
 * page that explains the link, or in the night over a page that only looks again.
 */
export const isBrowser = (request: Pick<FastifyRequest, 'headers'>): boolean =>
  asksForPage(request) ||
  request.headers['sec-fetch-mode'] !== undefined ||
  request.headers.cookie !== undefined;
