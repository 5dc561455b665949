// The evening text and the dawn text: may we light, from when, when the last wood, covered by when, and why; at dawn also
// what moved since the evening, or that nothing did.

import type { DayTold } from '#core/notices/message.ts';
import type { DaySummary, DayTime } from '#core/plan/plan-summary.ts';
import { dayNameOf } from '#core/units/local-time.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { amountWord, clockWord, compassWord, type NameForm } from './figure-texts.ts';
import { fixed, forms } from './fit-text.ts';
import { longName, plainName } from './plain-name.ts';
import { silencedText } from './silenced-text.ts';
import { sitePiece } from './site-piece.ts';
import { tailPieces } from './tail-pieces.ts';
import type { Composed, Piece, TextRequest } from './text-request.ts';
import type { MovedTime, TextWords } from './text-words.ts';

type Times = NonNullable<DaySummary['times']>;

export function dayText(request: TextRequest, told: DayTold, words: TextWords): Composed {
  const { message, site } = request;
  const { day, changes } = told;
  const date = message.kind === 'dawn' ? words.day.today : words.weekdays[dayNameOf(told.date)];
  const order = orderOf(day, words);
  const since = sinceOf(changes, words);
  const times = day.times === null ? null : timesOf(request, told, day.times, words);
  const why = whyOf(request, words);
  const smoke = smokeOf(request, day, words);
  const silenced = silencedText(request, words);
  return {
    order: `${date}: ${order}`,
    pieces: [
      sitePiece(site.name, words.site, ` ${date}:`),
      forms(since[0], [14, since[1]]),
      fixed(`${order}.`),
      ...(times === null ? [] : [times.piece, ...times.pauses]),
      why.piece,
      forms(smoke[0], [6, smoke[1]], [9, '']),
      silenced.piece,
      ...tailPieces(request, words),
    ],
    lines: [since[0], ...(times === null ? [] : times.lines), why.line, smoke[0], silenced.line].filter(
      (line) => line !== '',
    ),
  };
}

/** Go only where the day has a burn in it with all its times: nothing that is missing reads as a go. */
function orderOf(day: DaySummary, words: TextWords): string {
  if (day.verdict === 'go' && day.times !== null) return words.day.go;
  const order = words.unlit[day.verdict === 'go' ? 'hold' : day.verdict];
  return day.cannotSay ? `${words.day.cannotSay}, ${order}` : order;
}

function sinceOf(changes: DayTold['changes'], words: TextWords): readonly [long: string, short: string] {
  if (changes === null) return ['', ''];
  if (changes.length === 0) return words.day.same;
  const verdict = changes.find((c) => c.kind === 'verdict');
  if (verdict === undefined) return [words.day.changed, words.day.changed];
  const was = verdict.from === 'go' ? words.day.go : words.unlit[verdict.from];
  return [`${words.day.changed} ${words.day.was(was)}`, words.day.changed];
}

function timesOf(request: TextRequest, told: DayTold, times: Times, words: TextWords) {
  const { timeZone } = request.site;
  const clock = (ms: number) => clockWord(ms, times.lightUp, timeZone, words);
  const movedTime = (time: DayTime): MovedTime => {
    const change = told.changes?.find((c) => c.kind === 'time' && c.time === time);
    const wasMs = change?.kind === 'time' ? change.fromMs : null;
    return { at: clock(times[time]), was: wasMs === null ? null : clock(wasMs) };
  };
  const [light, last, covered] = (['lightUp', 'lastCharge', 'coveredBy'] as const).map(movedTime) as [
    MovedTime,
    MovedTime,
    MovedTime,
  ];
  const by = movedTime('lightUpBy');
  const now = (time: MovedTime): MovedTime => ({ at: time.at, was: null });
  const say = (a: MovedTime, until: MovedTime | null, b: MovedTime, c: MovedTime) =>
    `${words.day.lightUp(a, until)}, ${words.day.lastCharge(b)}, ${words.day.coveredBy(c)}.`;
  const pauses = pausesOf(told.day, times).map(([from, to]) => words.day.pause(clock(from), clock(to)));
  const [pause] = pauses;
  return {
    // What it was is left out last of all: that it changed is said in any case.
    piece: forms(
      say(light, by, last, covered),
      [by.was === null ? 3 : 12, say(light, null, last, covered)],
      [13, say(now(light), null, last, now(covered))],
      [15, say(now(light), null, now(last), now(covered))],
      [17, words.day.times(light.at, last.at, covered.at)],
    ),
    pauses: pause === undefined ? [] : [pausePiece(pause, pauses.length, words)],
    lines: [say(light, by, last, covered), ...pauses.map((p) => `${upperFirst(p)}.`)],
  };
}

const pausePiece = (pause: string, count: number, words: TextWords): Piece => {
  const counted = `${upperFirst(words.day.pauses(count))}.`;
  return count > 1 ? fixed(counted) : forms(`${upperFirst(pause)}.`, [13, counted]);
};

/** Holds between light-up and last charge. */
const pausesOf = ({ windows }: DaySummary, times: Times): readonly (readonly [number, number])[] =>
  windows
    .filter(
      ([verdict, fromMs, toMs]) => verdict !== 'go' && fromMs < times.lastCharge && toMs > times.lightUp,
    )
    .map(([, fromMs, toMs]) => [Math.max(fromMs, times.lightUp), Math.min(toMs, times.lastCharge)] as const);

/** The nearest limit with its figures, or what bars the day. */
function whyOf(request: TextRequest, words: TextWords): { readonly piece: Piece; readonly line: string } {
  const { day, message, site } = request;
  if (day === null || (day.limit === null && day.finding === null)) return { piece: fixed(''), line: '' };
  const isGo = message.kind !== 'notice' && 'day' in message && message.day.day.times !== null;
  const upper = (text: string) => `${upperFirst(text)}.`;
  if (day.finding !== null && !(isGo && day.limit !== null)) {
    const { finding } = day;
    const say = (name: NameForm) =>
      upper(
        (
          words.findings[finding.code] as (
            f: typeof finding.figures,
            name: (text: string) => string,
            element: (e: keyof TextWords['elements']) => string,
          ) => string
        )(
          finding.figures,
          (text) => name(text, words.site),
          (e) => words.elements[e],
        ),
      );
    const short = (septets: number) => say((name, otherwise) => plainName(name, septets, otherwise));
    return {
      piece: forms(() => short(40), [2, () => short(24)], [8, () => short(12)]),
      line: say(longName),
    };
  }
  const limit = (isTimed: boolean) => limitText(request, words, isTimed ? site.timeZone : null);
  if (limit(true) === '') return { piece: fixed(''), line: '' };
  const whole = isGo ? words.day.tightest(limit(true)) : upper(limit(true));
  // What bars a day is always said; the nearest limit of a go gives way where nothing else can.
  return {
    piece: forms(
      whole,
      [5, upper(limit(true))],
      [10, upper(limit(false))],
      [12, isGo ? '' : upper(limit(false))],
    ),
    line: whole,
  };
}

function limitText(request: TextRequest, words: TextWords, timeZone: string | null): string {
  const limit = request.day?.limit ?? null;
  if (limit === null) return '';
  const value = amountWord(limit.element, limit.value, limit.bound, request, words);
  const bound = amountWord(limit.element, limit.bound, null, request, words);
  if (value === null || bound === null) return '';
  const at = timeZone === null ? null : clockWord(limit.atMs, limit.atMs, timeZone, words);
  return words.limit(words.elements[limit.element], value, at, bound, limit.side);
}

function smokeOf({ day }: TextRequest, { times }: DaySummary, words: TextWords): readonly [string, string] {
  const from = day?.windFromDeg ?? null;
  const to = compassWord(from === null ? null : from + 180, words);
  return to === null || times === null ? ['', ''] : [words.smoke(to, false), words.smoke(to, true)];
}
