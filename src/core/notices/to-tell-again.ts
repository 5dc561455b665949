// Which notices are to be told once more although nothing about them changed: a fire burns, they still stand, and the
// message that told them ended without an answer, or without reaching anybody at the pit. Messages end; what stands does not.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { OpenMessage } from './acknowledge.ts';
import { answersOfPart } from './answers-of-part.ts';
import { answersThatCount } from './answers-that-count.ts';
import { TOLD_BY } from './codes.ts';
import { type Delivery, mayHaveArrived } from './delivery.ts';
import { elapsedMs } from './elapsed.ts';
import { isAnswered } from './last-answers.ts';
import type { Notice, Transition } from './notice.ts';
import { rank } from './rank.ts';
import { type Audience, type Told, whoIsTold } from './who-is-told.ts';

export interface TellAgainInput {
  readonly notices: readonly Notice[];
  /** Messages of the last day. */
  readonly messages: readonly OpenMessage[];
  readonly audience: Audience;
  readonly nowMs: number;
}

/** Ours: no source. Where nothing has arrived and nothing is under way, after the shorter time. */
const AGAIN_MS = HOUR_MS;
const UNREACHED_MS = 30 * MINUTE_MS;

/** Their keys. Where one is due, all that will be are told with it: one text instead of several. */
export function toTellAgain({ notices, messages, audience, nowMs }: TellAgainInput): ReadonlySet<string> {
  if (!audience.burnOpen) return new Set();
  const stopStands = notices.some((n) => n.told === 'stop' && n.standing === 'stop');
  const wants = notices
    .filter((n) => isDemanded(n, stopStands))
    .map((n) => [n.key, wantOf(n, lastTold(n, messages), audience, nowMs)] as const)
    .filter(([, want]) => want !== null);
  return new Set(wants.some(([, want]) => want === 'now') ? wants.map(([key]) => key) : []);
}

/** Known to stand, or nobody can say; what is getting better is told when it is over, or worse again. */
const isDemanded = (n: Notice, stopStands: boolean): boolean =>
  (n.phase === 'raised' || n.phase === 'unsure') &&
  rank(n.told) >= rank('hold') &&
  !(stopStands && n.told !== 'stop' && TOLD_BY[n.condition.code].mutedByStop);

interface LastTold extends OpenMessage {
  /** Which of its transitions. */
  readonly part: number;
}

function lastTold({ key, episode, number }: Notice, messages: readonly OpenMessage[]): LastTold | null {
  for (const one of messages) {
    const part = one.message.transitions.findIndex(
      (t) => t.notice === key && t.episode === episode && t.number === number,
    );
    if (part >= 0) return { ...one, part };
  }
  return null;
}

/** later: only beside another. Null: it is answered, or a hold has reached the crew, or there is nobody to be told now. */
function wantOf(n: Notice, last: LastTold | null, audience: Audience, nowMs: number): 'now' | 'later' | null {
  const tellable = tellableNow(n, audience, nowMs);
  if (tellable.length === 0) return null;
  const answered =
    n.acknowledgedAtMs !== null || (last !== null && isAnswered(answersOfPart(last, last.part)));
  if (last === null) return answered ? null : 'now';
  // Answered for another of its parts, it ends all the same.
  const isEnded = isAnswered(answersThatCount(last.message, last.answers));
  const isOver = answered || isEnded || nowMs > last.message.validUntilMs;
  const told = last.deliveries.filter(({ parts }) => parts.includes(last.part));
  if (isOver && missedCrew(told, tellable, audience)) return 'now';
  if (answered) return null;
  const rows = last.message.needsAnswer ? told.filter(({ asked }) => asked) : told;
  if (n.told !== 'stop' && reachedCrew(rows, audience)) return null;
  const agoMs = elapsedMs(toldMs(last, rows), nowMs);
  return isOver || agoMs >= AGAIN_MS || (agoMs >= UNREACHED_MS && isInVain(rows)) ? 'now' : 'later';
}

/** What a silence, or the hours of sleep, held back was told when it was let go, and not when it was made. */
function toldMs({ message }: OpenMessage, rows: readonly Delivery[]): number {
  const tried = rows.map(({ triedAtMs }) => triedAtMs).filter((ms) => ms !== null);
  return tried.length === 0 ? message.atMs : Math.max(message.atMs, Math.min(...tried));
}

/** Who would be asked, were it told now: silences and quiet hours keep what nobody would hear from being told. */
function tellableNow(n: Notice, audience: Audience, nowMs: number): readonly Told[] {
  const verdict = n.told ?? 'hold';
  const again: Transition = {
    notice: n.key,
    site: n.site,
    episode: n.episode,
    number: n.number,
    kind: 'still',
    atMs: nowMs,
    verdict,
    was: n.told,
    raisedAtMs: n.raisedAtMs ?? nowMs,
    inhibited: false,
    condition: n.condition,
  };
  const message = {
    id: '',
    kind: 'notice',
    site: n.site,
    atMs: nowMs,
    verdict,
    transitions: [again],
    validUntilMs: nowMs,
    needsAnswer: true,
  } as const;
  return whoIsTold(message, { ...audience, newest: new Map() }, nowMs).told.filter(({ asked }) => asked);
}

const crewOf = ({ contacts }: Audience): ReadonlySet<string> =>
  new Set(contacts.filter(({ role }) => role === 'crew').map(({ id }) => id));

/** Nobody of the crew was so much as tried, and those who are told first can be told now: they slept, or were silenced. */
function missedCrew(rows: readonly Delivery[], tellable: readonly Told[], audience: Audience): boolean {
  const crew = crewOf(audience);
  if (rows.some((d) => crew.has(d.contact) && d.outcome !== 'expired' && d.outcome !== 'superseded'))
    return false;
  const first = Math.min(...tellable.map(({ step }) => step));
  return tellable.some(({ contact, step }) => step === first && crew.has(contact.id));
}

function reachedCrew(rows: readonly Delivery[], audience: Audience): boolean {
  const crew = crewOf(audience);
  return rows.some((d) => d.outcome === 'sent' && (crew.size === 0 || crew.has(d.contact)));
}

const isInVain = (rows: readonly Delivery[]): boolean =>
  !rows.some((d) => d.outcome === null || mayHaveArrived(d));
