// Who is told of a message now, of which of its parts, and in which turn. One gate for all channels.
//
// crew: everything of its sites. office: what is marked as its business in codes.ts, what concerns the texts themselves,
// and whatever nobody answers. dispatch: stops, what is lit and covered, and what is marked so.

import { TOLD_BY } from './codes.ts';
import type { Contact } from './contact.ts';
import type { Message, OfficeMatter } from './message.ts';
import { isRelief, isStop, type Transition } from './notice.ts';
import { inQuietHours } from './quiet-hours.ts';
import { isSilenced, type Silence } from './silence.ts';

export interface Audience {
  /** Of the site's organisation. */
  readonly contacts: readonly Contact[];
  readonly silences: readonly Silence[];
  readonly timeZone: string;
  readonly burnOpen: boolean;
  /** Who was told of which episode, as `heardKey` writes it: what is taken back is told to them alone. */
  readonly heard: ReadonlySet<string>;
  /** The last transition of each notice, where it is known: what something newer was told of is told no more. */
  readonly newest: ReadonlyMap<string, { readonly episode: string; readonly number: number }>;
}

export interface Told {
  readonly contact: Contact;
  /** 0: at once. Later ones only where nobody who was asked before has answered. */
  readonly step: number;
  /** False: is told once, for their knowledge, and nobody waits for their answer. */
  readonly asked: boolean;
  /** Indices of the message's transitions. */
  readonly parts: readonly number[];
}

export type WhyNot =
  | 'other-site'
  | 'role'
  | 'superseded'
  | 'silenced'
  | 'told-before'
  | 'not-told-before'
  | 'quiet';

export interface WhoIsTold {
  /** One who is told at once for their knowledge may stand here again, to be asked in their turn. */
  readonly told: readonly Told[];
  /** For people who ask why somebody got nothing. */
  readonly not: readonly { readonly contact: Contact; readonly why: WhyNot }[];
}

export const heardKey = (contact: string, t: Pick<Transition, 'notice' | 'episode'>): string =>
  `${contact} ${t.notice} ${t.episode}`;

export function whoIsTold(message: Message, audience: Audience, nowMs: number): WhoIsTold {
  const told: Told[] = [];
  const not: { contact: Contact; why: WhyNot }[] = [];
  for (const contact of audience.contacts) {
    const turns = isOfSite(contact, message) ? turnsOf(message, contact) : null;
    const outcomes = (turns ?? []).map((turn) => take(turn, message, contact, audience, nowMs));
    const got = outcomes.filter((outcome) => typeof outcome !== 'string');
    told.push(...got);
    if (got.length > 0) continue;
    const why = outcomes.find((outcome) => typeof outcome === 'string');
    not.push({ contact, why: turns === null ? 'other-site' : (why ?? 'role') });
  }
  return { told, not };
}

const isOfSite = ({ sites }: Contact, { site }: Message): boolean =>
  sites === null || sites.includes(site.slice(site.indexOf('/') + 1));

interface Turn {
  readonly step: number;
  readonly asked: boolean;
  readonly mine: (t: Transition) => boolean;
}

const all = (): boolean => true;

function turnsOf(message: Message, { role, step }: Contact): Turn[] {
  const told: Turn[] = [{ step: 0, asked: false, mine: all }];
  const asked: Turn[] = message.needsAnswer ? [{ step, asked: true, mine: all }] : told;
  switch (message.kind) {
    case 'drill':
      return asked;
    case 'evening':
    case 'dawn':
      return role === 'crew' ? told : [];
    case 'burn':
      return role === 'dispatch' ? told : [];
    case 'office':
      return ofOffice(message.matter, role, told);
    case 'notice': {
      if (role === 'crew') return asked;
      const joins = message.needsAnswer && (role === 'office' || step > 0);
      const turns: Turn[] = [{ step: 0, asked: false, mine: (t) => isBusinessOf(role, t) }];
      return joins ? [...turns, { step: Math.max(1, step), asked: true, mine: all }] : turns;
    }
  }
}

/** Who has not heard a warning is seen to by the dispatch, where nobody of the office is there or can be reached. */
function ofOffice({ what }: OfficeMatter, role: Contact['role'], told: readonly Turn[]): Turn[] {
  if (role === 'office') return [...told];
  const isUrgent = what === 'not-delivered' || what === 'not-answered' || what === 'cannot';
  return role === 'dispatch' && isUrgent ? told.map((turn) => ({ ...turn, step: 1 })) : [];
}

function isBusinessOf(role: 'office' | 'dispatch', t: Transition): boolean {
  const by = TOLD_BY[t.condition.code];
  return role === 'office' ? by.office : by.dispatch || t.verdict === 'stop' || t.was === 'stop';
}

function take(
  { step, asked, mine }: Turn,
  message: Message,
  contact: Contact,
  audience: Audience,
  nowMs: number,
): Told | WhyNot {
  const reasons: readonly (readonly [WhyNot, (t: Transition) => boolean])[] = [
    ['role', mine],
    ['superseded', (t) => isNewest(t, audience.newest)],
    ['silenced', (t) => !isSilenced(t, audience.silences, nowMs)],
    // Who is told for their knowledge knows it already.
    ['told-before', (t) => asked || t.kind !== 'still' || !audience.heard.has(heardKey(contact.id, t))],
    ['not-told-before', (t) => !isRelief(t) || audience.heard.has(heardKey(contact.id, t))],
  ];
  let said = [...message.transitions.entries()];
  for (const [why, keep] of reasons) {
    const left = said.filter(([, t]) => keep(t));
    if (left.length === 0 && said.length > 0) return why;
    said = left;
  }
  const urgent = audience.burnOpen && said.some(([, t]) => isStop(t));
  if (!urgent && inQuietHours(contact.quiet, audience.timeZone, nowMs)) return 'quiet';
  return { contact, step, asked, parts: said.map(([i]) => i) };
}

/** True where nothing newer of the same notice was told or kept. */
export function isNewest(t: Transition, newest: Audience['newest']): boolean {
  const last = newest.get(t.notice);
  return last === undefined || (last.episode === t.episode && last.number === t.number);
}
