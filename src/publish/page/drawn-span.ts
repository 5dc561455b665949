// The hours of a day that are drawn and printed: from the first that is neither dark nor off shift to the last.

import type { Span } from '#core/units/time.ts';
import { openSpan } from '#publish/page/chart/time-scale.ts';
import { msOf } from './moments.ts';
import type { SiteView } from './site-view.ts';

export function drawnSpan({ windows }: Pick<SiteView, 'windows'>, shut: readonly Span[]): Span {
  return openSpan({ fromMs: msOf(windows.from), toMs: msOf(windows.to) }, shut);
}
