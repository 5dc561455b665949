// A pit that burns: pages of today say no go that the watch does not say.

import type { NowAnswer } from '#publish/wire-watch.ts';
import type { Mark, Standing } from './standing.ts';

/** Today's standing of a plan, held against what stands at the pit; where nothing burns it is the plan's own. */
export function withLive(standing: Standing, live: NowAnswer | null): Standing {
  if (live === null || live.burn === null || standing.mark === 'stop' || live.verdict === 'go')
    return standing;
  const mark = liveMark(live);
  return standing.mark === 'go' || mark === 'stop' ? { ...standing, mark, byNow: false } : standing;
}

export const liveMark = ({ verdict, unknown }: NowAnswer): Mark =>
  verdict === 'hold' && unknown ? 'unsaid' : verdict;
