// Of the day sheet alone: ink on white whatever the look, patterns and no colours, one side of Letter or A4.

import { type Markup, trusted } from '#publish/page/html.ts';

const INK =
  '--bg:#fff;--panel:#fff;--ink:#000;--muted:#000;--rule:#000;--trace:#000;--go:#fff;--go-ink:#000;--hold:#fff;--hold-ink:#000;--stop:#fff;--stop-ink:#000;--shut:#fff;color-scheme:light';

export const SHEET_STYLE: Markup = trusted(
  `:root,:root[data-look=night],:root[data-look=day]{${INK}}
@media screen and (prefers-color-scheme:dark){:root:not([data-look]){${INK}}}
.to-night,.to-day,:root[data-look=night] .to-day{display:none!important}
.sheet{font-size:14px;line-height:1.25}.sheet h1{font-size:24px;margin:8px 0 4px}.sheet h2{font-size:15px;margin:10px 0 3px;padding-top:3px}
.sheet .hd{display:flex;flex-wrap:wrap;justify-content:space-between;gap:0 14px;font-size:12.5px;margin-top:6px}
.void{border:4px solid #000;padding:5px 9px;margin:5px 0}.void b{font-size:22px;display:block;line-height:1.15}
.sheet .ans{display:flex;flex-wrap:wrap;gap:2px 12px;align-items:center}.sheet .ans .chip{font-size:19px}
.sheet .times{border-top:2px solid #000;margin:6px 0}.sheet .times b{font-size:22px}
.sheet .band{width:100%;height:30px;display:block;border:2px solid #000}.sheet .ln{stroke:#000;stroke-width:2;vector-effect:non-scaling-stroke}
.sheet table{width:100%;font-size:12px}.sheet th,.sheet td{padding:2px 4px 2px 0;white-space:nowrap}.sheet tbody th{font-weight:400;white-space:normal;min-width:130px}.sheet tbody th b{display:block}.sheet .hrs td{text-align:center}.sheet .hrs thead th{min-width:0;text-align:center;border-bottom-width:2px}
.sheet .st{border:1.6px solid #000;font-weight:800;padding:0 2px}.sheet .arrow{width:18px;height:18px;display:block;margin:0 auto}.sheet .arrow path{fill:none;stroke:#000;stroke-width:2.2}
.sheet .hrs{table-layout:fixed;min-width:740px}.sheet .hrs th:first-child{width:170px}.sheet .hrs .onaxis{padding:2px 0}.sheet .demo{display:none}.g2{display:grid;grid-template-columns:1fr;gap:0 22px}.ck{list-style:none}.ck li{margin:0;padding:2px 0 2px 22px;position:relative}.ck li:before{content:"";position:absolute;left:0;top:4px;width:12px;height:12px;border:1.6px solid #000}
.wd td{height:24px}.sheet .wd th,.sheet .wd td{white-space:normal}.sheet .wd tbody th{font-weight:700;min-width:0}.acts a{min-width:44px}.sheet .cau{font-size:12px;border-top:2px solid #000;margin-top:8px;padding-top:4px}footer{display:none}
@media(min-width:700px){.g2{grid-template-columns:1fr 1fr}}
@page{margin:8mm 10mm}
@media print{.top,.acts{display:none}.sheet{font-size:8.6pt;line-height:1.15}.sheet h1{font-size:14pt;margin:0 0 2px}.sheet h2{font-size:9.4pt;margin:5px 0 2px;padding-top:2px}.sheet .hd{font-size:7.6pt;margin:0}.void{padding:2px 7px;margin:3px 0;border-width:3px}.void b{font-size:13pt;display:inline}.sheet .ans .chip{font-size:11pt}.sheet .times{margin:3px 0}.sheet .times li{font-size:8pt;padding:2px 6px}.sheet .times b{font-size:13pt}.sheet .band{height:20px}.sheet table{font-size:7.4pt}.sheet th,.sheet td{padding:0 3px 0 0}.sheet .scroll{overflow:visible}.sheet .hrs{min-width:0}.sheet .demo{display:block}.g2{grid-template-columns:1fr 1fr}.wd td{height:19px}.ck li{padding:1px 0 1px 17px}.ck li:before{top:2px;width:9px;height:9px}.sheet .cau{font-size:7.4pt;margin-top:4px}
.tight{font-size:7.4pt;line-height:1.08}.tight h1{font-size:11pt}.tight .hrs tbody th{font-size:6.4pt}.tight .hrs tbody th b{display:inline}.tight .wd td{height:14px}.tight .void b{font-size:11pt}.tight h2{margin:3px 0 1px;font-size:8.4pt}.tight .arrow{width:12px;height:12px}.tight .sheet .times b{font-size:11pt}}`.replaceAll(
    '\n',
    '',
  ),
);
