// That nobody measures the wind at a site, as the watch says it: before the light-up and beside the fire.

import type { NowAnswer } from '#publish/wire-watch.ts';
import { html, type Markup } from './html.ts';

/** Null where somebody does, or nothing is watched. */
export const unmeasuredText = (live: Pick<NowAnswer, 'conditions'> | null): string | null =>
  live?.conditions.find(({ code, truth }) => code === 'wind-unmeasured' && truth === 'true')?.text ?? null;

/** Null, too, where it is what stands, and said as that. */
export function unmeasuredLine(live: Pick<NowAnswer, 'conditions' | 'text'> | null): Markup | null {
  const text = unmeasuredText(live);
  return text === null || text === live?.text ? null : html`<p class="note">${text}</p>`;
}
