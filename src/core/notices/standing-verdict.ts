// What people at a site were told to do and that still stands: the worst of all its notices.

import type { Verdict } from '#core/rules/finding.ts';
import type { Notice } from './notice.ts';
import { worse } from './rank.ts';

/** `go` where nothing stands, which is never leave to light. */
export const standingVerdict = (notices: readonly Notice[]): Verdict =>
  notices.map(({ standing, told }) => (standing === null ? null : told)).reduce(worse, null) ?? 'go';
