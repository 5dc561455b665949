// What a form of the settings sends: what it is about, which revision it was made from, the body that it showed, and what was
// typed over it.

import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import { refuseDeep } from '#publish/api/deep-body.ts';
import type { Typed } from './typed-body.ts';

/** Fields are named by their places in the body; which ones there are, the body tells. */
export const postedBody = z.record(z.string().max(200), z.string().max(60_000));

export interface Posted {
  /** Null for a new one that has no name yet. */
  readonly id: string | null;
  /** Null for a new one. */
  readonly revision: number | null;
  readonly content: unknown;
  readonly typed: Typed;
  /** preview, edit, take-out, `add:kind:path`, `remove:path`. */
  readonly wish: string;
}

/** Throws ServiceError `bad_body`, `body_too_large`. */
export function readPosted(typed: Typed): Posted {
  const { id = '', revision = '', content = '', do: wish = 'preview' } = typed;
  if (revision !== 'new' && !/^\d{1,9}$/.test(revision)) throw bad('revision', 'expected a revision, or new');
  return {
    id: id === '' ? null : id.slice(0, 80),
    revision: revision === 'new' ? null : Number(revision),
    content: parsed(content),
    typed,
    wish,
  };
}

function parsed(content: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(content);
  } catch {
    throw bad('content', 'expected the content that the form was made with');
  }
  refuseDeep(value);
  return value;
}

function bad(path: string, message: string): ServiceError {
  return new ServiceError('bad_body', `${path}: ${message}`, { facts: { faults: [{ path, message }] } });
}
