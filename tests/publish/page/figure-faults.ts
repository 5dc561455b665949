// Compares every figure of a page in English with the answers of the API; whatever differs is a fault. No test in here.

import type { HoursAnswer, PlanAnswer, WindowsAnswer } from '#publish/wire.ts';
import { english } from '#publish/wording/en.ts';
import { lanesOf, type ReadHour, type ReadLane } from './read-lanes.ts';

export interface Answers {
  readonly plan: PlanAnswer;
  readonly windows: WindowsAnswer;
  readonly hours: HoursAnswer;
}

type Limit = HoursAnswer['limits'][number];
type Hour = HoursAnswer['hours'][number];

/** A number as written is that of the answer, to the decimals that it shows. */
function isSame(text: string, value: number): boolean {
  const plain = text.replaceAll(',', '');
  const decimals = plain.split('.')[1]?.length ?? 0;
  return Math.abs(Number(plain) - value) <= 0.5 * 10 ** -decimals + 1e-9;
}

/** "3:00 pm" of an instant with its offset, read off its text. */
export function clockOf(instant: string): string {
  const [, hour = '', minute = ''] = /T(\d\d):(\d\d)/.exec(instant) ?? [];
  return `${Number(hour) % 12 === 0 ? 12 : Number(hour) % 12}:${minute} ${Number(hour) < 12 ? 'am' : 'pm'}`;
}

const spanOf = ({ from, to }: { from: string; to: string }): [number, number] => [
  Date.parse(from),
  Date.parse(to),
];
const overlap = ([a, b]: [number, number], [c, d]: [number, number]): boolean => a < d && c < b;

export function laneFaults(page: string, answers: Answers): string[] {
  const lanes = lanesOf(page);
  const { limits } = answers.hours;
  if (lanes.length !== limits.length) return [`${lanes.length} lanes for ${limits.length} limits`];
  return lanes.flatMap((lane) => {
    const limit = limits.find((l) => isOf(lane, l));
    if (limit === undefined) return [`no limit for ${lane.element}, ${lane.limit}`];
    const faults = [
      ...hourFaults(lane, limit, answers),
      ...drawnFaults(lane, limit),
      ...roomFaults(lane, limit, answers),
      ...runFaults(lane, 'over'),
      ...runFaults(lane, 'under'),
    ];
    return faults.map((fault) => `${lane.element}, ${lane.limit}: ${fault}`);
  });
}

/** By its name, when it holds, whose it is, and all its bounds. */
function isOf({ element, limit: words, unit }: ReadLane, limit: Limit): boolean {
  const name = english.elements[limit.element as keyof typeof english.elements];
  if (element.toLowerCase() !== name.toLowerCase() || !words.endsWith(`, ${limit.source}`)) return false;
  if (unit !== (limit.unit === '1' ? '' : limit.unit)) return false;
  if ((limit.when === 'always') !== !/, by (day|night), /.test(words)) return false;
  if (limit.when !== 'always' && !words.includes(`, by ${limit.when}, `)) return false;
  const sides = [
    ['at least', limit.atLeast],
    ['at most', limit.atMost],
  ] as const;
  return sides.every(([word, bounds]) => {
    const found = new RegExp(`${word} ([\\d.,]*\\d)(?:, stop ([\\d.,]*\\d))?( \\(stop\\))?`).exec(words);
    if (bounds === null || found === null) return bounds === null && found === null;
    const [, first = '', second, onlyStop] = found;
    if (onlyStop !== undefined) return bounds.hold === null && isSame(first, bounds.stop ?? Number.NaN);
    const isStop = second === undefined ? bounds.stop === null : isSame(second, bounds.stop ?? Number.NaN);
    return isSame(first, bounds.hold ?? Number.NaN) && isStop;
  });
}

/** What the lane reads out, hour by hour. */
function hourFaults({ hours }: ReadLane, limit: Limit, answers: Answers): string[] {
  const all = answers.hours.hours;
  const names = all.map(({ from }) => clockOf(from));
  // The hours that are drawn follow each other; those of an autumn day have their zones besides.
  const first = names.findIndex((_, i) =>
    hours.every(({ name }, k) => name.replace(/^\w+, \w+ \d+, /, '').startsWith(names[i + k] ?? '-')),
  );
  if (first < 0) return [`no hours ${hours.map(({ name }) => name).join(', ')}`];
  return hours.flatMap((read, i) => {
    const score = all[first + i]?.scores[limit.limit];
    return score && isRead(read, score, limit)
      ? []
      : [`${JSON.stringify(read)} for ${JSON.stringify(score)}`];
  });
}

function isRead(read: ReadHour, score: Hour['scores'][number], limit: Limit): boolean {
  if (score.value === null) return read.value === null;
  const isBeyond = score.applies && (score.class === 'hold' || score.class === 'stop');
  const isOver = score.value >= (score.bound ?? 0) && bounds(limit.atMost).includes(score.bound);
  const side = isOver ? 'over' : 'under';
  const isValue = read.value !== null && isSame(read.value, score.value);
  return isValue && read.beyond === (isBeyond ? side : null) && read.derived === score.derived;
}

const bounds = (side: Limit['atMost']): (number | null)[] => (side === null ? [] : [side.hold, side.stop]);

/** What the lane draws is what it reads out: a point for each value, in order, and numbers under their points. */
function drawnFaults(lane: ReadLane, limit: Limit): string[] {
  const { hours, points, numbers } = lane;
  const valued = hours.filter(({ value }) => value !== null);
  if (points.length !== valued.length) return [`${points.length} points for ${valued.length} values`];
  const misplaced = numbers.filter(({ text, x, isMarked }) => {
    const i = x === null ? -1 : points.findIndex(([at]) => Math.abs(at - x * 10) <= 0.6);
    const hour = x === null ? valued.find(({ value }) => value === text) : valued[i];
    return hour?.value !== text || isMarked !== (hour.beyond !== null);
  });
  return [...misplaced.map(({ text, x }) => `${text} at ${x}`), ...sideFaults(lane, valued, limit)];
}

/** Each point is on the right side of each line. */
function sideFaults({ points, lines }: ReadLane, valued: readonly ReadHour[], limit: Limit): string[] {
  return lines.flatMap(({ verdict, y, label }) => {
    const isMost = isSame(label.replace(/^\w+ /, ''), limit.atMost?.[verdict] ?? Number.NaN);
    const bound = (isMost ? limit.atMost : limit.atLeast)?.[verdict] ?? Number.NaN;
    return valued.flatMap(({ value }, i) => {
      const number = Number((value ?? '').replaceAll(',', ''));
      const at = points[i]?.[1] ?? 0;
      const isWrong = number > bound ? at > y + 0.11 : number < bound && at < y - 0.11;
      return isWrong ? [`${value} at ${at} px, ${label} at ${y} px`] : [];
    });
  });
}

/** The least room over the hours that count, with its hour. */
function roomFaults({ note }: ReadLane, limit: Limit, { plan, windows, hours }: Answers): string[] {
  const { lightUp, lastCharge } = plan;
  const shut = windows.windows.flatMap((w) =>
    w.reasons.filter((r) => r.code === 'dark' || r.code === 'off-shift').map(spanOf),
  );
  const isShut = (ms: number): boolean => shut.some(([from, to]) => from <= ms && ms < to);
  const isOpen = ([from, to]: [number, number]): boolean => {
    for (let ms = from; ms < to; ms += 60_000) if (!isShut(ms)) return true;
    return false;
  };
  const counts = (hour: Hour): boolean =>
    lightUp !== null && lastCharge !== null
      ? overlap(spanOf(hour), [Date.parse(lightUp), Date.parse(lastCharge)])
      : isOpen(spanOf(hour));
  const open = hours.hours.filter(counts);
  const counted = (open.length > 0 ? open : hours.hours).flatMap((hour) => {
    const score = hour.scores[limit.limit];
    return score?.applies && score.room !== null ? [{ at: clockOf(hour.from), room: score.room, score }] : [];
  });
  const [, word, room, unit, at] =
    /(Least room(?: while loading)?|Farthest beyond): ([\d.,]+)(?: (\S+))? at (?:\w+, \w+ \d+, )?(\d+:\d\d [ap]m)/.exec(
      note,
    ) ?? [];
  if (counted.length === 0) return word === undefined ? [] : [`room where there is none: ${note}`];
  const least = Math.min(...counted.map((c) => c.room));
  const there = counted.find(
    (c) => c.at === at && Math.abs(c.room) < Math.abs(least) + 1e-9 && c.room === least,
  );
  const isBeyond = there?.score.class === 'hold' || there?.score.class === 'stop';
  const shownUnit = limit.unit === '%' ? 'points' : limit.unit;
  const fits =
    there !== undefined &&
    room !== undefined &&
    isRoom(room, least) &&
    (unit ?? '1') === shownUnit &&
    word === (isBeyond ? 'Farthest beyond' : `Least room${lightUp === null ? '' : ' while loading'}`);
  return fits ? [] : [`${note} for ${least} at ${counted.find((c) => c.room === least)?.at}`];
}

/** A difference is told without decimals from ten on. */
const isRoom = (text: string, room: number): boolean =>
  isSame(text, Math.abs(room)) &&
  (Math.abs(room) >= 10 || text === '0' || Number(text.replaceAll(',', '')) > 0);

/** The hours that the words call over or under are those that the lane reads out so. */
function runFaults({ note, hours }: ReadLane, word: 'over' | 'under'): string[] {
  const told = new Set<number>();
  for (const [, spans = ''] of note.matchAll(
    new RegExp(`${word} \\((?:hold|stop)\\) (.*?)\\.(?= [A-Z]|$)`, 'gi'),
  )) {
    for (const span of spans.split(/, (?=from|until|all)| and (?=from|until|all)/)) {
      const [, , from, , until] =
        /^(from (.*?))?(?:(?:^| )(until) (.*))?$/.exec(span)?.map((p) => p ?? '') ?? [];
      const begin = from ? hours.findIndex(({ name }) => name === from) : 0;
      const end = until ? hours.findIndex(({ name }) => name === until) : hours.length;
      for (let i = begin; i < end; i += 1) told.add(i);
    }
  }
  const read = hours.flatMap(({ beyond }, i) => (beyond === word ? [i] : []));
  const isWhole = read.join() === [...told].sort((a, b) => a - b).join();
  return isWhole || note.includes('More in the table') ? [] : [`${note} for hours ${read.join(', ')}`];
}
