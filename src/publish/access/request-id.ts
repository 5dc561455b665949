// One id for each request, in its answer and in every log line about it.

import { randomBytes } from 'node:crypto';

const WELL_FORMED = /^[A-Za-z0-9][A-Za-z0-9._-]{7,63}$/;

/** Takes the caller's own id over where it is well-formed, so that it cannot forge a log line or carry a text. */
export function createRequestIds(): (given: string | string[] | undefined) => string {
  const start = randomBytes(6).toString('base64url').replaceAll(/[-_]/g, '0');
  let count = 0;
  return (given) => {
    if (typeof given === 'string' && WELL_FORMED.test(given) && !given.includes('pw_')) return given;
    count += 1;
    return `${start}-${count.toString(36)}`;
  };
}
