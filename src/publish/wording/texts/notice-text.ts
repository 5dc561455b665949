// A notice as a text: site, what to do, the worst of what changed with its figures, where the smoke goes, how to answer.

import { isRelief, type Transition, type TransitionKind } from '#core/notices/notice.ts';
import { OF_WIND } from '#core/notices/of-wind.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { worseOf } from '#core/rules/finding.ts';
import { clockWord, figureTexts, type NameForm } from './figure-texts.ts';
import { fixed, forms } from './fit-text.ts';
import { longName, plainName } from './plain-name.ts';
import { sentenceWithPit, topicWithPit } from './say-pit.ts';
import { sitePiece } from './site-piece.ts';
import { tailPieces } from './tail-pieces.ts';
import type { Composed, Piece, TextRequest } from './text-request.ts';
import type { Size, TextWords } from './text-words.ts';

interface Level {
  /** Of a name within the sentence. */
  readonly septets: number;
  readonly size: Size;
  /** At which it is fallen back to. */
  readonly rank: number;
  /**
   * Of who measured it only how far away that is; the last resort: without the moment too, and where one of several pits must
   * be named without what stands before the sentence, and of what nobody can say with the pit alone.
   */
  readonly lacks: 'nothing' | 'name' | 'moment' | 'lead';
}

const level = (septets: number, size: Size, rank: number, lacks: Level['lacks'] = 'nothing'): Level => ({
  septets,
  size,
  rank,
  lacks,
});

const LED: ReadonlySet<TransitionKind> = new Set(['worse', 'eased', 'unsteady', 'still']);

const WHOLE = level(Number.POSITIVE_INFINITY, 'whole', 0);
const FULL = level(40, 'whole', 0);
const SHORTER: readonly Level[] = [
  level(20, 'whole', 3),
  level(20, 'brief', 6),
  level(12, 'brief', 8),
  level(12, 'bare', 12),
  level(8, 'bare', 17),
  level(8, 'bare', 18, 'name'),
  level(8, 'bare', 19, 'moment'),
  level(8, 'bare', 20, 'lead'),
];

export function noticeText(request: TextRequest, words: TextWords): Composed {
  const told = toldOf(request);
  const [first] = told;
  if (first === undefined) throw new RangeError('a notice that tells nothing');
  const order = orderOf(request, told, words);
  const isRelieved = told.every(isRelief);
  const at = (l: Level) => () => sentenceOf(first, request, words, cut(l.septets), l);
  const relief = isRelieved ? words.onlyByPlan : (['', ''] as const);
  const smoke = smokeOf(first, request, words);
  return {
    order: orderFor(request, order, words),
    pieces: [
      sitePiece(request.site.name, words.site),
      ...leadPieces(request, words),
      orderPiece(request, order, words),
      forms(at(FULL), ...SHORTER.map((l) => [l.rank, at(l)] as const)),
      fixed(told.length > 1 ? words.more(told.length - 1) : ''),
      forms(smoke[0], [7, smoke[1]], [OF_WIND.has(first.condition.code) ? 20 : 14, '']),
      forms(relief[0], [10, relief[1]]),
      ...tailPieces(request, words),
    ],
    lines: [
      ...told.map((t) => sentenceOf(t, request, words, longName, WHOLE)),
      ...(smoke[0] === '' ? [] : [smoke[0]]),
      ...(relief[0] === '' ? [] : [relief[0]]),
    ],
  };
}

const cut =
  (septets: number): NameForm =>
  (name, otherwise) =>
    plainName(name, septets, otherwise);

/** The worst first, as the message has them. */
function toldOf({ message, parts }: TextRequest): readonly Transition[] {
  if (parts === null) return message.transitions;
  const told = parts.flatMap((i) => message.transitions[i] ?? []);
  return told.length > 0 ? told : message.transitions;
}

/** Never less than what stands beside it: a hold after a stop must not read as the end of the stop. */
function orderOf(request: TextRequest, told: readonly Transition[], words: TextWords): string {
  const { message, burning, standing } = request;
  const demands = told.filter((t) => !isRelief(t));
  const stands = standing ?? message.verdict;
  const verdict = demands.map((t): Verdict => t.verdict).reduce(worseOf, stands);
  const [first] = demands;
  // A duty is said in its own words, unless something else demands more.
  const duty = first?.verdict === verdict ? words.duties[first.condition.code] : undefined;
  return duty ?? (burning ? words.lit : words.unlit)[verdict];
}

/** Those who are not at the pit are told what the crew is to do; news is news for anybody. */
function orderPiece(request: TextRequest, order: string, words: TextWords): Piece {
  const whole = orderFor(request, order, words);
  return whole === order ? fixed(`${order}.`) : forms(`${whole}.`, [5, `${words.forCrew(order, true)}.`]);
}

const orderFor = ({ reader }: TextRequest, order: string, words: TextWords): string =>
  reader.role === 'crew' || order === words.lit.go ? order : words.forCrew(order, false);

function leadPieces({ escalated, repeat, reader }: TextRequest, words: TextWords): Piece[] {
  if (escalated && reader.role !== 'crew') return [forms(words.notAnswered[0], [4, words.notAnswered[1]])];
  return repeat > 0 || escalated ? [forms(words.again, [15, ''])] : [];
}

function sentenceOf(
  t: Transition,
  request: TextRequest,
  words: TextWords,
  name: NameForm,
  { size, lacks }: Level,
): string {
  const { code } = t.condition;
  const kind = kindOf(t);
  const figures = figureTexts({ ...t.condition, verdict: t.verdict }, request, words, name);
  const by = lacks === 'name' && figures.by ? { ...figures.by, name: '', everyMin: null } : null;
  const nameless = lacks === 'nothing' ? figures : { ...figures, by };
  const f =
    lacks === 'moment' || lacks === 'lead' ? { ...nameless, at: null, asOf: null, between: null } : nameless;
  const sentence = sentenceWithPit(code, f, size, words);
  const said = size === 'bare' && kind !== 'unsure' ? { ...f, bound: null } : f;
  const topic = topicWithPit(code, said, words, size !== 'whole');
  const at = clockWord(t.atMs, request.message.atMs, request.site.timeZone, words);
  const pit = lacks === 'lead' ? (f.pit?.[1] ?? null) : null;
  switch (pit !== null && LED.has(kind) ? 'raised' : kind) {
    case 'raised':
      return sentence;
    case 'worse':
      return `${words.worse} ${lower(sentence)}`;
    case 'eased':
      return `${words.eased} ${lower(sentence)}`;
    case 'unsteady':
      return `${words.unsteady} ${lower(sentence)}`;
    case 'still':
      return `${words.still} ${lower(sentence)}`;
    case 'unsure':
      if (pit !== null) return words.unsure(pit);
      return size === 'bare' ? words.unsure(topic) : `${words.lastKnown} ${lower(sentence)}`;
    case 'over':
      return words.over(topic, at, size !== 'whole');
    case 'corrected':
      return words.corrected(topic, at, size !== 'whole');
  }
}

/** What is told once more while nobody can say is told as that. */
const kindOf = ({ kind, condition }: Transition): TransitionKind =>
  kind === 'still' && condition.truth === 'unknown' ? 'unsure' : kind;

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Only of what was measured of the wind: long and short; empty where nobody can say, or nothing is said of it. */
function smokeOf(t: Transition, request: TextRequest, words: TextWords): readonly [string, string] {
  const { code, basis } = t.condition;
  if (isRelief(t) || kindOf(t) === 'unsure' || basis !== 'observed' || code === 'smoke-turned-to-place')
    return ['', ''];
  if (code === 'wind-unsteady') return [words.smokeAnywhere, ''];
  const { to } = figureTexts(t.condition, request, words, longName);
  return to === null ? ['', ''] : [words.smoke(to, false), words.smoke(to, true)];
}
