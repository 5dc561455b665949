// Findings and scores → reasons of the published contract.

import type { Finding, LimitFigures } from '#core/rules/finding.ts';
import { limitFigures, type Scored } from '#core/rules/limit-figures.ts';
import type { HourScore } from '#core/score/tightest.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { Reason, Tightest } from '#publish/wire.ts';
import { say, wordsFor } from '#publish/wording/say.ts';
import { differenceIn, roundTo, unitFor, valueIn } from '#publish/wording/show.ts';
import type { Reader } from '#publish/wording/words.ts';

export function reasonOf(f: Finding, reader: Reader): Reason {
  const span = { from: rfc3339(f.fromMs, reader.timeZone), to: rfc3339(f.toMs, reader.timeZone) };
  const base = { code: f.code, verdict: f.verdict, ...span };
  if (f.code === 'over-limit' || f.code === 'under-limit') {
    const { element, value, bound, unit, side, at, room, roomFraction, derived, source } = limitWire(
      f.figures,
      reader,
    );
    const category = f.figures.category === null ? {} : { category: f.figures.category };
    const figures = {
      element,
      value,
      bound,
      unit,
      side,
      at,
      room,
      roomFraction,
      derived,
      source,
      ...category,
    };
    return { ...base, ...figures, unknown: f.unknown, text: say(f, reader) };
  }
  const element = f.code === 'element-missing' ? { element: f.figures.element } : {};
  const source = 'source' in f.figures ? { source: f.figures.source } : {};
  const figures = wireFigures(f, reader);
  const more = Object.keys(figures).length > 0 ? { figures } : {};
  return { ...base, ...element, ...source, unknown: f.unknown, ...more, text: say(f, reader) };
}

/** Figures by code: instants as RFC 3339 text, everything else in the unit that its name tells. */
function wireFigures(f: Finding, { timeZone }: Reader): Record<string, unknown> {
  const figures: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(f.figures)) {
    if (key === 'element' || key === 'source') continue;
    if (key.endsWith('Ms') && typeof value === 'number') figures[key.slice(0, -2)] = rfc3339(value, timeZone);
    else figures[key] = typeof value === 'number' ? roundTo(value, 3) : value;
  }
  return figures;
}

function limitWire(f: LimitFigures, { units, timeZone }: Reader) {
  return {
    element: f.element,
    value: valueIn(f.element, f.value, units),
    bound: valueIn(f.element, f.bound, units),
    unit: unitFor(f.element, units),
    side: f.side,
    at: rfc3339(f.atMs, timeZone),
    room: differenceIn(f.element, f.room, units),
    roomFraction: roundTo(f.roomFraction, 4),
    derived: f.derived,
    source: f.source,
  };
}

export function tightestOf(scored: Scored, score: HourScore | null, reader: Reader): Tightest | null {
  if (score === null || score.class === 'missing') return null;
  const figures = limitFigures(scored, score.limitIndex, score.hour);
  const text = wordsFor(reader.language).tightest(figures, reader);
  return { class: score.class, ...limitWire(figures, reader), text };
}
