// Style of the drawings. Words keep their size at any width; below 320 px they shrink with the screen.

export const CHART_SHEET = `
.day svg{display:block;overflow:visible}.day svg svg{display:inline}
.day text{font:min(13px,4.06vw) system-ui,"DejaVu Sans",sans-serif;fill:var(--ink);text-anchor:middle;font-variant-numeric:tabular-nums}
.day .ts{text-anchor:start}.day .te{text-anchor:end}
.day .m,.day .bw,.day .gw{paint-order:stroke;stroke:var(--bg);stroke-width:4px;stroke-linejoin:round}
.day .m,.day .gw{font-weight:700}.day .l{font-weight:400}.day tspan{font-weight:700}
.day .hr,.day .bw{fill:var(--muted)}.day .lane .hr{font-size:min(12px,3.75vw)}.day .bw{font-size:min(12px,3.75vw)}
.day .nr tspan{font-weight:400;baseline-shift:3px;font-size:.75em}.day .o{font-weight:800;text-decoration:underline}
.tk path{stroke:var(--ink);stroke-width:1.5;vector-effect:non-scaling-stroke}
.band rect{stroke:var(--ink);stroke-width:1.5}.mk{stroke:var(--ink);stroke-width:2}.lane .mk{stroke-width:1}
.b-go{fill:var(--go)}.b-hold{fill:url(#p-hold)}.b-stop{fill:url(#p-stop)}.b-shut{fill:url(#p-shut)}
.h-hold{fill:url(#h-hold)}.h-stop{fill:url(#h-stop)}.load{fill:var(--go);opacity:.16}
.edge{fill:none;stroke:var(--rule)}.bd{stroke:var(--ink);stroke-width:1.5;stroke-dasharray:7 4}.stops{stroke-width:2.5;stroke-dasharray:3 3}
.tr path{fill:none;stroke:var(--trace);stroke-width:2.5;stroke-linejoin:round;vector-effect:non-scaling-stroke}
.pt{fill:var(--trace)}.pt-d{fill:var(--bg);stroke:var(--trace);stroke-width:2}
.pt-o{fill:var(--stop);stroke:var(--ink);transform:translate(-3.5px,-3.5px)}
.gap{fill:var(--bg);stroke:var(--muted);stroke-dasharray:2 4}
.lh{display:flex;flex-wrap:wrap;gap:0 10px;justify-content:space-between;align-items:baseline;margin:18px 0 4px}.lh span{font-weight:400;font-size:14px;color:var(--muted)}
.day .note{margin-top:1px}
`;
