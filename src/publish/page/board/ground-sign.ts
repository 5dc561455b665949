// The sign of a pit on a map with tiles: what the drawn map shows, about its own middle.

import { html, type Markup } from '#publish/page/html.ts';
import type { Mark } from '#publish/page/standing.ts';

const FAN = 44;
const RING = 17;

const fixed = (value: number): string => String(Math.round(value * 10) / 10);

/** 96 px wide; bearings clockwise from north, which is up. */
export function signOf(
  mark: Mark,
  smoke: { readonly towardDeg: number; readonly halfWidthDeg: number } | null,
): Markup {
  const under = smoke === null ? html`<circle class="ring" r="${RING}"/>` : fan(smoke);
  return html`<svg viewBox="-48 -48 96 96" width="96" height="96" aria-hidden="true">${under}<use class="pin-${mark}" href="#i-${mark}" x="-10" y="-10" width="20" height="20"/></svg>`;
}

function fan({ towardDeg, halfWidthDeg }: { towardDeg: number; halfWidthDeg: number }): Markup {
  const steps = Math.max(2, Math.ceil(halfWidthDeg / 8));
  const arc = Array.from({ length: steps + 1 }, (_, i) => {
    const rad = ((towardDeg - halfWidthDeg + (2 * halfWidthDeg * i) / steps) * Math.PI) / 180;
    return `L${fixed(FAN * Math.sin(rad))} ${fixed(-FAN * Math.cos(rad))}`;
  });
  return html`<path class="fan" d="M0 0${arc.join('')}Z"/>`;
}
