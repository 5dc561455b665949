// Parts of the page of a day that tell nothing of this moment: drawn once from the same answers, for as long as these are kept.

import type { HoursAnswer } from '#publish/wire.ts';
import type { Markup } from './html.ts';
import type { SiteView } from './site-view.ts';

/** What such a part may be made from. */
export type DrawnFrom = Pick<SiteView, 'hours' | 'plan' | 'windows' | 'keepOff' | 'reader' | 'dayLabel'>;

interface Drawn extends DrawnFrom {
  readonly markup: Markup;
}

const drawn = new WeakMap<HoursAnswer, Map<string, Drawn>>();

/** `part`: its name, with whatever else it is made from. The answers are compared as objects: they are never changed. */
export function drawnOnce(view: DrawnFrom, part: string, make: () => Markup): Markup {
  const { hours, plan, windows, keepOff, reader, dayLabel } = view;
  const parts = drawn.get(hours) ?? new Map<string, Drawn>();
  drawn.set(hours, parts);
  const key = `${part} ${reader.language} ${reader.units} ${dayLabel}`;
  const known = parts.get(key);
  const isSame = known?.plan === plan && known.windows === windows && known.keepOff === keepOff;
  if (known && isSame) return known.markup;
  const markup = make();
  parts.set(key, { ...{ hours, plan, windows, keepOff, reader, dayLabel }, markup });
  return markup;
}
