// Where each kind of definition lives, and how one that is not there is told.

import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import { unknownSite } from '#publish/site-key.ts';
import type { DefinitionKind } from '#store/definition.ts';

export interface DefinitionPath {
  readonly kind: DefinitionKind;
  readonly path: string;
  /** For people. */
  readonly one: string;
  readonly all: string;
  /** Who may read it: telephone numbers are not for everybody who may read answers. */
  readonly reads: 'read' | 'notify';
  /** Who may change it: an authority posts orders, and nothing else. */
  readonly writes: 'admin' | 'order';
}

export const definitionParams = z.strictObject({ id: z.string().min(1).max(80) });

/** The same words whether it was never there, was taken out, or is not the viewer's to see. */
export function notThere(kind: DefinitionKind, id: string): ServiceError {
  if (kind === 'site') return unknownSite(id);
  return new ServiceError('not_found', `no ${kind === 'limit-set' ? 'limit set' : kind} "${id}"`);
}
