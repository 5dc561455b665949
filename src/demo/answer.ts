// What the stand-in answers with.

import type { Problem } from './documents.ts';

export type Answer =
  | {
      readonly kind: 'document';
      readonly document: unknown;
      readonly maxAgeS: number;
      readonly modifiedMs: number | null;
    }
  | { readonly kind: 'redirect'; readonly location: string }
  | { readonly kind: 'problem'; readonly problem: Problem };

export const problem = (status: number, kind: string, title: string, detail: string): Answer => ({
  kind: 'problem',
  problem: { status, kind, title, detail },
});

export const invalidPoint = (point: string): Answer =>
  problem(
    404,
    'InvalidPoint',
    'Data Unavailable For Requested Point',
    `Unable to provide data for requested point ${point}`,
  );
