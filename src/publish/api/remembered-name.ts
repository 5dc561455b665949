// Who tapped last on this phone, in a cookie: a name for the next tap and nothing that lets anybody in.

import type { FastifyRequest } from 'fastify';

const COOKIE = 'pitward-by';
/** Half a year. */
const MAX_AGE_S = 15_552_000;
export const MOST_NAME = 120;

export function rememberedName({ headers }: Pick<FastifyRequest, 'headers'>): string {
  const [, value = ''] = new RegExp(`(?:^|; *)${COOKIE}=([^;]*)`).exec(headers.cookie ?? '') ?? [];
  try {
    return decodeURIComponent(value).slice(0, MOST_NAME);
  } catch {
    return '';
  }
}

export const nameCookie = (name: string): string =>
  `${COOKIE}=${encodeURIComponent(name)}; Path=/sites; Max-Age=${MAX_AGE_S}; HttpOnly; SameSite=Strict`;
