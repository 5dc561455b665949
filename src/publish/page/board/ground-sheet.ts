// Style of the map with tiles, behind the board's.

import { type Markup, trusted } from '#publish/page/html.ts';

const SHEET = `
#map{height:min(70vh,720px);min-height:300px;border:2px solid var(--ink);margin-top:12px;background:var(--panel);overflow:hidden;position:relative}
#map>p{padding:12px}#map canvas{position:absolute;left:0;top:0}
.maplibregl-canvas-container{position:absolute;inset:0}.maplibregl-marker{position:absolute;left:0;top:0}
.maplibregl-ctrl-top-left,.maplibregl-ctrl-top-right,.maplibregl-ctrl-bottom-right{position:absolute;right:0;top:0}.maplibregl-ctrl-bottom-left{position:absolute;left:8px;bottom:6px}
.maplibregl-ctrl-scale{border:2px solid var(--ink);border-top:0;padding:0 6px;font-size:13px;background:var(--bg);color:var(--ink)}
#map-buttons{display:flex;flex-wrap:wrap;gap:8px;margin-top:8px}#map-buttons[hidden],#map-holes[hidden]{display:none}
#map-holes{margin-top:8px}.sign{display:inline-flex;align-items:center;justify-content:center;width:96px;height:96px;position:relative;text-decoration:none}
.sign b{position:absolute;left:62px;top:37px;font-size:16px;line-height:1.3;text-shadow:-2px 0 var(--bg),2px 0 var(--bg),0 -2px var(--bg),0 2px var(--bg)}
.sign svg use{color:var(--ink);stroke:var(--ink);stroke-width:2}

.pit .name{font-size:19px}.pit .name a{display:inline-flex;align-items:center;min-height:44px}
#map .sign{position:absolute;left:0;top:0;width:44px;height:44px}#map .sign svg{flex:none;pointer-events:none}#map .sign b{left:36px;top:11px}
@media(min-width:1000px){.wrap:has(#map){max-width:1100px}}
`;

export const GROUND_STYLE: Markup = trusted(SHEET.replaceAll('\n', ''));
