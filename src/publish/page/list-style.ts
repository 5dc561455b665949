// Of the list of sites alone.

import { type Markup, trusted } from './html.ts';

export const LIST_STYLE: Markup = trusted(
  `.counts>li{display:flex;flex-wrap:wrap;gap:0 14px;align-items:center}.counts>li>b{min-width:5.4em}
.narrow{display:grid;grid-template-columns:repeat(auto-fit,minmax(150px,1fr));gap:0 12px;align-items:end;border-bottom:3px solid var(--ink);padding-bottom:10px}
.narrow input,.narrow select{display:block;width:100%;margin-top:2px}.narrow label{font-size:14px}.narrow [type=hidden]{display:none}
.found{display:flex;flex-wrap:wrap;gap:0 16px;align-items:center;justify-content:space-between}
.needs{list-style:none;margin:4px 0 6px;border-left:6px solid var(--ink);padding-left:10px}.needs li{margin:0}.needs .deed{font-weight:700}
.pages a,.pages b{display:inline-flex;align-items:center;justify-content:center;min-width:44px;min-height:44px}.pages b{border:2px solid var(--ink)}
@media print{.narrow,.found a,.pages{display:none}.needs{border-left-width:3px}}`.replaceAll('\n', ''),
);
