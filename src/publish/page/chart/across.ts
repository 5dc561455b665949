// Attributes of a box over a span of time.

import type { Span } from '#core/units/time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import type { TimeScale } from './time-scale.ts';

export function across({ fromMs, toMs }: Span, { x }: TimeScale): Markup {
  return html`x="${x(fromMs)}%" width="${Math.round((x(toMs) - x(fromMs)) * 100) / 100}%"`;
}
