// Style of the board alone, behind the sheet of all pages.

import { type Markup, trusted } from '#publish/page/html.ts';

/** How old the page is on the screen: the clock of the style sheet begins when it is shown. */
const AGES_S = [60, 300, 1800];

const SHEET = `
.sum{font-size:19px;font-weight:700}.written{display:grid;gap:2px}.again{display:flex;flex-wrap:wrap;gap:0 16px;align-items:center}
.ages{display:inline-grid;vertical-align:bottom;font-weight:800}.aging{grid-area:1/1;visibility:hidden;background:var(--panel)}.aging::after{content:attr(data-t)}
@keyframes aged{to{visibility:visible}}${AGES_S.map((s, i) => `.a${i}{animation:aged 1ms linear ${s}s forwards}`).join('')}
.board{display:grid;gap:0 40px}.board>*{min-width:0}
.pit{display:grid;grid-template-columns:auto minmax(0,1fr) auto;gap:4px 12px;align-items:center}
.pit h3{margin:0;font-size:19px}.pit h3 a{display:inline-flex;align-items:center;min-height:44px}
.pin{position:relative;display:inline-flex;gap:6px;align-items:center;font-size:24px;min-width:52px}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(210px,1fr));gap:2px 18px;margin-top:4px;font-size:15px}
.facts dt{color:var(--muted);font-size:13.5px;font-weight:400;margin:0}
.pages{display:flex;flex-wrap:wrap;gap:4px}.pages>*{display:inline-flex;align-items:center;justify-content:center;min-width:44px;min-height:44px}
.found{margin-top:14px;border:2px solid var(--ink);padding:4px 12px 10px}.found h4{margin:10px 0 0;font-size:16px}.found .rows{list-style:none}
.map{margin:16px 0 0}.map svg{display:block;width:100%;height:auto}.map figcaption{margin-top:4px}
.map text{font:13px system-ui,"DejaVu Sans",sans-serif;fill:var(--ink)}.map .county{font-size:12px;fill:var(--muted);text-anchor:middle}
.map .edge{stroke:var(--ink);stroke-width:2}.map .lines{fill:none;stroke:var(--rule);vector-effect:non-scaling-stroke}
.fan{fill:var(--ink);fill-opacity:.2;stroke:var(--ink);stroke-width:1}.ring{fill:none;stroke:var(--ink);stroke-width:1.5;stroke-dasharray:3 3}
.map use{color:var(--ink);stroke:var(--ink);stroke-width:2}.pin-go{fill:var(--go)}.pin-hold{fill:var(--hold)}.pin-stop{fill:var(--stop)}
.map .letter{font-size:16px;font-weight:800;paint-order:stroke;stroke:var(--bg);stroke-width:4px;stroke-linejoin:round}.asked{stroke:var(--ink);stroke-width:4;fill:none}
.bar path,.north path{fill:none;stroke:var(--ink);stroke-width:2}.bar text,.north text{paint-order:stroke;stroke:var(--bg);stroke-width:4px}
@media(min-width:1000px){.board{grid-template-columns:minmax(0,1fr) 420px;align-items:start}.board>div>h2:first-child{margin-top:16px}}
@media(max-width:419px){.pit{grid-template-columns:auto minmax(0,1fr)}.pit .chip{grid-column:1/-1;justify-self:start}}
@media print{.aside form,.again,.ages{display:none}.board{display:block}.facts{grid-template-columns:repeat(3,1fr);font-size:8pt}.facts dt{font-size:7.5pt}.map{max-width:95mm;break-inside:avoid}.found h4{font-size:9pt;margin-top:3px}.found .tap{min-height:0}.pit h3{font-size:10pt}.pit h3 a,.facts .tap{min-height:0}.pin{font-size:12pt}.pits>li{break-inside:avoid}}
`;

export const BOARD_STYLE: Markup = trusted(SHEET.replaceAll('\n', ''));
