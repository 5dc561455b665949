import { MINUTE_MS } from '#core/units/time.ts';
import type { Watched } from './choose-station.ts';
import type { WatchContext } from './watch-context.ts';

/** How long a turn is told of in any case. An hourly station's is told for its hour: it may come late. */
export const shiftLastsMs = ({ settings }: Pick<WatchContext, 'settings'>, watched: Watched | null): number =>
  Math.max(settings.shift.lastsMin, watched?.station.periodMin ?? 0) * MINUTE_MS;
