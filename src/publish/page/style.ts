// The one style sheet. Colours and their contrasts are those of the table in our look: text at least 4.5 : 1, edges 3 : 1.

import { CHART_SHEET } from './chart-style.ts';
import { FIELD_SHEET } from './field-style.ts';
import { type Markup, trusted } from './html.ts';

const DAY =
  '--bg:#fff;--panel:#f4f1ea;--ink:#17140f;--muted:#57514a;--rule:#8a837a;--trace:#124e78;--go:#007359;--go-ink:#fff;--hold:#f5c518;--hold-ink:#17140f;--stop:#7a1010;--stop-ink:#fff;--shut:#d9d4cb;color-scheme:light';
const NIGHT =
  '--bg:#0d0c0a;--panel:#1a1815;--ink:#f3ebdd;--muted:#b9b0a2;--rule:#7d766b;--trace:#8cc8ff;--go:#4ac79d;--go-ink:#0d0c0a;--hold:#ffe07a;--hold-ink:#0d0c0a;--stop:#e2583e;--stop-ink:#0d0c0a;--shut:#35312b;color-scheme:dark';

const SHEET = `
:root{${DAY}}
:root[data-look=night]{${NIGHT}}:root[data-look=night] .to-night,:root:not([data-look=night]) .to-day{display:none}
@media screen and (prefers-color-scheme:dark){:root:not([data-look]){${NIGHT}}:root:not([data-look]) .to-night{display:none}:root:not([data-look]) .to-day{display:inline-flex}}
*{box-sizing:border-box}
body{margin:0;background:var(--bg);color:var(--ink);font:17px/1.42 system-ui,"DejaVu Sans",sans-serif;overflow-wrap:break-word}
h1,h2,h3,p,ol,ul,dl,dd{margin:0}ol,ul{padding:0}li{margin-left:1.15em}
a{color:inherit;text-underline-offset:3px}
:focus-visible{outline:3px solid var(--trace);outline-offset:2px}
.sprite{position:absolute}
.wrap{max-width:560px;margin:0 auto;padding:0 16px 40px}
.demo{flex-basis:100%;background:var(--ink);color:var(--bg);padding:4px 6px;font-weight:700;font-size:13px;text-align:center}
.top{display:flex;flex-wrap:wrap;justify-content:space-between;column-gap:14px;align-items:center;font-size:14px;border-bottom:3px solid var(--ink);padding:2px 0}
.top nav{display:flex;flex-wrap:wrap;column-gap:14px}
.top a,.top b{display:inline-flex;align-items:center;min-height:44px;min-width:44px}
.top .zone{flex-basis:100%;padding-bottom:5px;color:var(--muted)}
h2{font-size:17px;margin:26px 0 8px;border-top:3px solid var(--ink);padding-top:8px}
h3{font-size:17px;margin:12px 0 2px}
.i{width:1em;height:1em;flex:none}
.go{background:var(--go);color:var(--go-ink)}.hold{background:var(--hold);color:var(--hold-ink)}.stop{background:var(--stop);color:var(--stop-ink)}.unsaid{background:var(--bg);color:var(--ink)}
.call{--w:14px;margin-top:12px;padding:10px 12px 11px 26px;border:2px solid var(--ink)}
.chip{--w:7px;display:inline-flex;gap:5px;align-items:center;font-weight:800;font-size:14px;padding:2px 8px 2px 13px;border:2px solid var(--ink);white-space:nowrap;line-height:1.3}
.hold.call,.hold.chip{background:repeating-linear-gradient(45deg,var(--hold-ink) 0 3px,transparent 3px 7px) 0/var(--w) 100% no-repeat var(--hold)}
.stop.call,.stop.chip{background:repeating-linear-gradient(45deg,var(--stop-ink) 0 1px,transparent 1px 5px) 0/var(--w) 100% no-repeat,repeating-linear-gradient(-45deg,var(--stop-ink) 0 1px,transparent 1px 5px) 0/var(--w) 100% no-repeat,var(--stop)}
.unsaid.call,.unsaid.chip{border-style:dashed}
.go.call,.unsaid.call{padding-left:14px}.go.chip,.unsaid.chip{padding-left:8px}
.call h1{font-size:16px;font-weight:400}
.call .w{display:flex;flex-wrap:wrap;gap:0 10px;align-items:center;font-size:clamp(40px,13.3vw,52px);line-height:1.15;font-weight:800}.call .v{display:flex;gap:10px;align-items:center;white-space:nowrap}.call .w.long .v{font-size:clamp(28px,9.6vw,40px)}.call .p{display:block;font-size:18px;font-weight:800}
.call .w .i{width:.8em;height:.8em}
.call .t{font-size:21px;line-height:1.12;margin-left:auto;text-align:right;font-variant-numeric:tabular-nums}
.call p{font-size:16px;margin-top:3px}
.times{display:grid;grid-template-columns:repeat(3,1fr);border:2px solid var(--ink);border-top:0;list-style:none}
.times li{margin:0;padding:7px 8px 8px;font-size:14px;display:flex;flex-direction:column;justify-content:space-between}.times li+li{border-left:2px solid var(--ink)}
.times b{display:block;font-size:clamp(16px,4.7vw,21px);line-height:1.25;font-variant-numeric:tabular-nums}
.times .wide{grid-column:1/-1;border-top:2px solid var(--ink);flex-flow:row wrap;gap:0 10px;align-items:baseline}.times li.wide{border-left:0}.latest{padding-top:5px}
.age{font-size:15px;margin-top:10px;padding:8px 10px;background:var(--panel);border-left:6px solid var(--rule)}
.age.old{border:3px solid var(--ink);border-left-width:12px}.age .loud{display:block;font-size:19px;font-weight:800}.loudly{color:var(--ink)}
.note{font-size:14px;color:var(--muted)}
.l-beyond{fill:none;stroke:var(--ink);opacity:.5}.to{fill:none;stroke:var(--trace);stroke-width:2.5}.f-hold{fill:var(--hold)}.l-hold{fill:var(--hold-ink);opacity:.38}.f-stop{fill:var(--stop)}.l-stop{stroke:var(--stop-ink);opacity:.6}.f-shut{fill:var(--shut)}.l-shut{fill:var(--muted)}
.rows{list-style:none}.rows>li{margin:0;padding:9px 0;border-bottom:1px solid var(--rule)}
.week a{display:grid;grid-template-columns:minmax(90px,126px) auto 1fr;gap:4px 10px;align-items:center;min-height:44px;text-decoration:none}
.week a>b{text-decoration:underline;font-size:15px}.week .why{font-size:15px;text-align:right}.week .num{font-size:14px}.week .long{grid-column:1/-1;text-align:left}
.cols ul:not(.rows)>li+li{margin-top:2px}ul+p{margin-top:7px}
.num{font-variant-numeric:tabular-nums}
summary{padding:9px 0;min-height:44px;font-weight:700;cursor:pointer}
details{border-top:3px solid var(--ink);margin-top:26px}details h2{display:inline;border:0;margin:0;padding:0}
details.sub{border-top:1px solid var(--rule);margin-top:10px}
.scroll{overflow-x:auto;max-width:100%}
table{border-collapse:collapse;font-size:14px;font-variant-numeric:tabular-nums}caption{text-align:left;font-size:14px;color:var(--muted);padding-bottom:4px}
th,td{text-align:left;padding:5px 9px 5px 0;border-bottom:1px solid var(--rule);vertical-align:top;white-space:nowrap}thead th{border-bottom:3px solid var(--ink);white-space:normal;min-width:62px;vertical-align:bottom}
tbody th{position:sticky;left:0;background:var(--bg)}
.out{font-weight:800;text-decoration:underline;text-decoration-style:double;text-underline-offset:2px}
.sites h2{border:0;margin:0;padding:0;font-size:19px}.sites h2 a{display:inline-flex;align-items:center;min-height:44px}
.sites .d{display:grid;grid-template-columns:104px 1fr;gap:2px 10px;margin-top:4px;font-size:16px}.sites .d>*{margin:0}.sites .d.lit{border-left:6px solid var(--ink);padding-left:8px}.sites .d dt{font-weight:400;color:var(--muted);font-size:14px;padding-top:4px}
.sites .a{display:flex;flex-wrap:wrap;gap:2px 10px;align-items:center}.chip{flex:none}@media(min-width:700px){.sites dd.a{display:grid;grid-template-columns:130px 1fr}}
h1.all{font-size:26px;margin:14px 0 6px}.chipped{display:inline-flex;align-items:center;min-height:44px;text-decoration:none}.steps{margin-top:12px}
.todo>li{display:grid;grid-template-columns:minmax(84px,auto) 1fr;gap:0 12px}.todo .num{font-size:17px}
blockquote{margin:6px 0 0;padding:9px 12px;background:var(--panel);border:2px solid var(--rule);font:15px/1.45 ui-monospace,"DejaVu Sans Mono",monospace;overflow-wrap:anywhere}
form p{margin-top:8px}input,button,select{font:inherit;min-height:44px;padding:4px 10px;border:2px solid var(--ink);background:var(--bg);color:var(--ink)}button{background:var(--ink);color:var(--bg);font-weight:800;cursor:pointer}.play input{width:7em}.reading input:not([type=radio]),.reading select{display:block;width:100%;margin-top:2px}.reading [aria-invalid]{border-width:4px}.three{display:grid;grid-template-columns:1fr 1fr 1fr;gap:0 10px}.reading label:not(.pick),legend{font-weight:700}fieldset{margin:12px 0 0;border:2px solid var(--rule);padding:4px 12px 12px}
.pick{display:flex;gap:10px;align-items:center;min-height:44px}.pick input{width:24px;height:24px;min-height:0;margin:0}.bad{display:block;font-weight:800;border-left:6px solid var(--stop);padding:2px 8px;margin-top:4px}.kept{font-weight:800;border-left:6px solid var(--go);padding:2px 8px}
.played .age{margin-top:6px}.p-turn{font-weight:800}
footer{border-top:3px solid var(--ink);margin-top:30px;padding-top:8px;font-size:14px;color:var(--muted)}
code,pre{font:14px/1.4 ui-monospace,"DejaVu Sans Mono",monospace}pre{background:var(--panel);padding:10px;overflow-x:auto}
.tap{display:inline-flex;align-items:center;min-height:44px}h2 code{font-size:17px}main>div+p{margin-top:10px}.doc .tap{max-width:100%}.doc code{min-width:0;overflow-wrap:anywhere}.doc ul{list-style:none}.doc li{margin-left:0;padding:2px 0 2px 12px;border-left:2px solid var(--rule)}
.if-copy,.if-void,.void .if-good{display:none}.copy .if-copy,.void .if-void{display:block}.if-copy,.if-void{margin-top:8px;padding:10px 12px;border:4px dashed var(--ink);font-size:18px}
.skip{position:absolute;left:-999px}.skip:focus{left:8px;top:8px;background:var(--bg);padding:10px}
${FIELD_SHEET}${CHART_SHEET}@media(min-width:1000px){.week a{grid-template-columns:144px auto 1fr}.wrap{max-width:1080px}.cols{display:grid;grid-template-columns:430px minmax(0,1fr);gap:0 44px;align-items:start}.cols>div:last-child>h2:first-child{margin-top:12px}
.sites>li{display:grid;grid-template-columns:240px 1fr;gap:0 20px}.doc{max-width:760px}}
@media(max-width:279px){.times{grid-template-columns:1fr}.times li+li{border-left:0;border-top:2px solid var(--ink)}.call .t{margin-left:0;text-align:left}.week a,.todo>li{grid-template-columns:1fr}.week .why{text-align:left}.hold.call,.stop.call{padding-left:20px}.call .v{gap:6px}.call .w{font-size:21px}.call .w.long .v{font-size:18px}.call .t{font-size:19px}.chip{white-space:normal}}
@media(forced-colors:active){:root,:root[data-look]{--bg:Canvas;--panel:Canvas;--ink:CanvasText;--muted:CanvasText;--rule:CanvasText;--trace:LinkText;--go:Canvas;--go-ink:CanvasText;--hold:Canvas;--hold-ink:CanvasText;--stop:Canvas;--stop-ink:CanvasText;--shut:Canvas}.call,.chip,.demo,button,.day svg{forced-color-adjust:none}.load{opacity:0}}
@page{margin:10mm 11mm}
@media print{:root,:root[data-look=night]{${DAY}}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}.top nav,.top>a,.top>b,.skip,.scr,.latest{display:none}.wrap{max-width:none;padding:0}body{font-size:9pt;line-height:1.22}
h2{font-size:10pt;margin:8px 0 3px;padding-top:3px}h3{font-size:9pt;margin:4px 0 0}h2,h3{break-after:avoid}tr,li,.call,.times,.age,.band,.lane{break-inside:avoid}.cols{display:block;columns:2;column-gap:22px}
.call{margin-top:6px;padding-top:6px;padding-bottom:7px}.call .w{font-size:27px}.call .w.long .v{font-size:25px}.call .t{font-size:16px}.top .zone{padding-bottom:2px}.demo{padding:2px}.demo,.top .zone{font-size:8.5pt}.call h1{font-size:10pt}.call p,.age,.note{font-size:8.5pt}.age{margin-top:6px;padding:4px 8px}.rows>li{padding:1px 0}.todo .num{font-size:9pt}.sites h2 a,.chipped{min-height:0}.chip,footer,.times li{font-size:8.5pt}.times b{font-size:13pt}.day text{font-size:12px}.lh{margin:8px 0 2px}.cols h2{margin-top:6px}
a{text-decoration:none}details:not(.hours){display:none}.day .note{break-before:avoid}details.hours{border-top:0;margin:6px 0 0}summary{list-style:none;padding:0;min-height:0}details::details-content{content-visibility:visible}.scroll{overflow:visible}
table{width:100%}caption{display:none}table,td .chip{font-size:7.5pt;line-height:1.05}th,td{padding:0 6px 0 0}thead th{min-width:0;border-bottom-width:2px}tbody th{position:static}td .chip{padding:0 5px 0 11px;border:0;margin:0;gap:4px}td .go,td .unsaid{padding-left:5px}footer{margin-top:6px;padding-top:3px}}
`;

export const STYLE: Markup = trusted(SHEET.replaceAll('\n', ''));
