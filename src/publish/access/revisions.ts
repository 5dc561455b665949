// Revisions as entity tags, and what a change says that it replaces.

import { ServiceError } from '#errors.ts';

export const revisionTag = (revision: number): string => `"r${revision}"`;

export interface Preconditions {
  readonly 'if-match'?: string | undefined;
  readonly 'if-none-match'?: string | undefined;
}

/**
 * What a PUT or DELETE replaces. `If-Match: *` is not taken: whoever has not read what is there must not overwrite it.
 * Throws ServiceError `precondition_required`.
 */
export function replacedBy(headers: Preconditions, mayBeNew: boolean): readonly number[] | 'new' {
  const match = headers['if-match'];
  if (match !== undefined && match.trim() !== '*') return revisionsOf(match);
  if (mayBeNew && headers['if-none-match']?.trim() === '*') return 'new';
  const orNew = mayBeNew ? ', or If-None-Match: * for a new one' : '';
  throw new ServiceError(
    'precondition_required',
    `expected If-Match with the revision read, such as "r7"${orNew}`,
  );
}

/** Weak tags match nothing (RFC 9110, 13.1.1). */
const revisionsOf = (header: string): number[] =>
  header.split(',').flatMap((tag) => {
    const digits = /^"r(\d{1,9})"$/.exec(tag.trim())?.[1];
    return digits === undefined ? [] : [Number(digits)];
  });
