// Style of the glance: one word that is read across a cab, and targets for gloves.

import { type Markup, trusted } from './html.ts';

const SHEET = `
.big{--w:22px;margin:0 -16px;padding:12px 16px 16px 30px;border-bottom:3px solid var(--ink)}.big.go,.big.unsaid{padding-left:16px}.big.unsaid{border:4px dashed var(--ink)}
.big.hold{background:repeating-linear-gradient(45deg,var(--hold-ink) 0 4px,transparent 4px 10px) 0/var(--w) 100% no-repeat var(--hold)}
.big.stop{background:repeating-linear-gradient(45deg,var(--stop-ink) 0 1px,transparent 1px 6px) 0/var(--w) 100% no-repeat,repeating-linear-gradient(-45deg,var(--stop-ink) 0 1px,transparent 1px 6px) 0/var(--w) 100% no-repeat,var(--stop)}
.big h1{font-size:17px;font-weight:400}.big .w{display:flex;gap:.07em;align-items:center;font-size:clamp(40px,24.6vw,96px);line-height:1.1;font-weight:800;white-space:nowrap}.big .w .i{width:.44em;height:.44em}
.big .w.wide{font-size:clamp(30px,15vw,72px)}.big .w.long{font-size:clamp(22px,11.5vw,60px)}.big .s{font-size:clamp(21px,6.6vw,28px);line-height:1.2;font-weight:700}.big .note{color:inherit;margin-top:6px}
.box{margin-top:12px;padding:10px 12px;border:2px solid var(--ink);font-size:19px}.big+.box{margin-top:14px}
.glance button{width:100%;min-height:64px;font-size:21px;margin-top:10px}.glance .second button{min-height:48px;font-size:17px;background:var(--bg);color:var(--ink)}.glance .second input{width:100%}
.glance .who{display:block;width:100%;margin-top:4px}.glance label{font-weight:700}.glance h2{margin-top:18px}
.queue:empty{display:none}.queue{margin-top:12px;padding:8px 12px;border:3px dashed var(--ink);font-size:18px}.queue button{min-height:48px;font-size:17px}
.lost:empty{display:none}.lost{padding:8px 0;font-weight:800}.sound{margin-top:12px}.sound[hidden]{display:none}
`;

export const GLANCE_STYLE: Markup = trusted(SHEET.replaceAll('\n', ''));
