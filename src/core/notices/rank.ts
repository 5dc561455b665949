// Verdicts in their order, with nothing below all of them.

import { SEVERITY, type Verdict } from '#core/rules/finding.ts';

export const rank = (verdict: Verdict | null): number => (verdict === null ? -1 : SEVERITY[verdict]);

export const worse = (a: Verdict | null, b: Verdict | null): Verdict | null => (rank(a) >= rank(b) ? a : b);
