// Answers as text for a terminal: the word first, then times, then why. Words and shapes always; colour only besides.

import { styleText } from 'node:util';
import { MINUTE_MS } from '#core/units/time.ts';
import { msOf } from '#publish/page/moments.ts';
import type { PlanAnswer, Reason, WindowsAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { momentText } from '#publish/wording/show.ts';
import type { Words } from '#publish/wording/words.ts';

const SHAPE = { go: '>', hold: '||', stop: '[]' } as const;
const COLOUR = { go: 'green', hold: 'yellow', stop: 'red' } as const;
type VerdictName = keyof typeof SHAPE;

export interface Look {
  readonly colour: boolean;
}

const styled = (text: string, verdict: VerdictName, { colour }: Look): string =>
  colour ? styleText(['bold', COLOUR[verdict]], text, { validateStream: false }) : text;

export const verdictText = (verdict: VerdictName, words: Words, look: Look): string =>
  styled(`${SHAPE[verdict]} ${words.verdicts[verdict]}`, verdict, look);

export function planText(plan: PlanAnswer, look: Look): string {
  const words = wordsFor(plan.lang);
  const { labels } = words;
  const clock = (text: string | null) =>
    text === null ? '-' : momentText(msOf(text), plan.timeZone, plan.lang, plan.day);
  const title = plan.cannotSay ? `<> ${words.cannotSay}` : verdictText(plan.verdict, words, look);
  const lines = [...demoLine(plan.demo, words), `${title}  ${plan.text}`];
  if (plan.lightUp !== null) {
    lines.push(
      '',
      `  ${pad(labels.warmUp)} ${clock(plan.warmUp)}`,
      `  ${pad(labels.lightUp)} ${clock(plan.lightUp)}`,
      `  ${pad(labels.lightUpBy)} ${clock(plan.lightUpBy)}`,
      ...plan.pauses.map((p) => `  ${labels.pause} ${clock(p.from)} - ${clock(p.to)}`),
      `  ${pad(labels.lastCharge)} ${clock(plan.lastCharge)}`,
      `  ${pad(labels.burnedDown)} ${clock(plan.burnedDown)}`,
      `  ${pad(labels.coveredBy)} ${clock(plan.coveredBy)}   (${plan.timeZone})`,
      '',
      ...section(`${labels.whyNotBefore} ${clock(plan.lightUp)}`, reasonLines(plan.causes.lightUp)),
      ...section(`${labels.whyStopCharging} ${clock(plan.lastCharge)}`, [
        ...reasonLines(plan.causes.lastCharge),
        ...[plan.causes.burnedDown, plan.causes.coveredBy].filter((t) => t !== null).map((t) => `     ${t}`),
      ]),
    );
  } else if (plan.wouldChange.barredBy.length > 0) {
    lines.push('', ...section(labels.whyNone, reasonLines(plan.wouldChange.barredBy)));
  }
  if (plan.tightest) lines.push('', plan.tightest.text);
  const moves = [
    ...plan.wouldChange.moves.map((m) => m.text),
    ...(plan.wouldChange.next ? [plan.wouldChange.next.text] : []),
  ];
  lines.push(
    '',
    ...section(
      labels.wouldChange,
      moves.map((m) => `  ${m}`),
    ),
  );
  return [...lines, ...footLines(plan, words)].join('\n');
}

/** `day`: the one whose moments need no date. */
export function windowsText(answer: WindowsAnswer, look: Look, day = answer.from.slice(0, 10)): string {
  const words = wordsFor(answer.lang);
  const moment = (text: string) => momentText(msOf(text), answer.timeZone, answer.lang, day);
  const lines = [...demoLine(answer.demo, words), `${answer.name}, ${answer.timeZone}`];
  for (const w of answer.windows) {
    // Go to charge is no go to light: whoever reads the first word must not be misled.
    const span = `${moment(w.from)} - ${moment(w.to)}`;
    const isLate = w.standing === 'charge';
    const head = verdictText(isLate ? 'hold' : w.verdict, words, look);
    lines.push(
      '',
      ...(isLate ? [`${head}  ${lateText(w, answer, words, day)}`, `     ${span}`] : [`${head}  ${span}`]),
    );
    lines.push(...reasonLines(w.reasons.filter((r) => w.verdict === 'go' || r.verdict !== 'go')));
    lines.push(
      ...lightingLines(w, answer, words, day),
      ...(w.verdict === 'go' && w.tightest ? [`     ${w.tightest.text}`] : []),
    );
  }
  return [...lines, ...footLines(answer, words)].join('\n');
}

type AnsweredWindow = WindowsAnswer['windows'][number];

function lateText(
  w: AnsweredWindow,
  { timeZone, lang: language, units }: WindowsAnswer,
  words: Words,
  day: string,
): string {
  return words.tooLateToLight(msOf(w.to), { language, units, timeZone, day });
}

/** Until when a go may be lit; that it is too late is the headline. */
function lightingLines(
  w: AnsweredWindow,
  { timeZone, lang: language }: WindowsAnswer,
  words: Words,
  day: string,
): string[] {
  if (w.lightUpBy === null || w.standing === 'over' || w.standing === 'charge') return [];
  return [`     ${words.labels.mayLightUntil} ${momentText(msOf(w.lightUpBy), timeZone, language, day)}.`];
}

function reasonLines(reasons: readonly Reason[]): string[] {
  const texts = reasons.map((r) => `  ${SHAPE[r.verdict].padEnd(2)} ${r.text}`);
  return [...new Set(texts)];
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [title, ...lines];

const demoLine = (demo: boolean, words: Words): string[] => (demo ? [words.demo] : []);

const pad = (label: string): string => label.padEnd(16);

interface Foot {
  readonly madeAt: string | null;
  readonly fetchedAt: string;
  readonly workedOutAt: string;
  readonly goodUntil: string | null;
  readonly timeZone: string;
  readonly lang: 'en' | 'es';
  readonly caution: string;
}

function footLines(answer: Foot, { labels, age }: Words): string[] {
  const worked = msOf(answer.workedOutAt);
  const day = answer.workedOutAt.slice(0, 10);
  const moment = (text: string | null) =>
    text === null ? '?' : momentText(msOf(text), answer.timeZone, answer.lang, day);
  const ageMin = answer.madeAt === null ? null : Math.floor((worked - msOf(answer.madeAt)) / MINUTE_MS);
  const old = ageMin === null ? '' : ` (${age(ageMin)})`;
  const until = answer.goodUntil === null ? '' : ` ${labels.voidAfter} ${moment(answer.goodUntil)}.`;
  return [
    '',
    `${labels.forecastMade} ${moment(answer.madeAt)}${old}, ${labels.fetched} ${moment(answer.fetchedAt)}, ${labels.workedOut} ${moment(answer.workedOutAt)}.${until}`,
    answer.caution,
  ];
}
