// What a text is made from, and what it comes to.

import type { Role } from '#core/notices/contact.ts';
import type { Message } from '#core/notices/message.ts';
import type { Silence } from '#core/notices/silence.ts';
import type { Finding, LimitFigures, Verdict } from '#core/rules/finding.ts';
import type { Station } from '#core/watch/station.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';

export interface TextReader {
  readonly language: Language;
  readonly units: UnitSystem;
  readonly role: Role;
}

/** What a day's plan rests on; the message itself tells only its verdict and its times. */
export interface DayFigures {
  /** The nearest limit of a go, or the one that bars the day. */
  readonly limit: LimitFigures | null;
  /** What bars the day whatever the values do; null where nothing but limits does. */
  readonly finding: Finding | null;
  /** At light-up. */
  readonly windFromDeg: number | null;
}

export type StationFacts = Pick<Station, 'kind' | 'distanceM' | 'periodMin'>;

export interface TextRequest {
  readonly message: Message;
  /** Which of its transitions this person is told; null: all. */
  readonly parts: readonly number[] | null;
  readonly site: { readonly name: string; readonly timeZone: string };
  readonly reader: TextReader;
  /** The worst that stands at the site now: no text says less. Null: as the message has it. */
  readonly standing: Verdict | null;
  /** True while a fire is open there: what to do differs. */
  readonly burning: boolean;
  /** True where this person is to answer. */
  readonly asked: boolean;
  /** How often this person was told before without an answer. */
  readonly repeat: number;
  /** True where those who were asked before have not answered. */
  readonly escalated: boolean;
  readonly day: DayFigures | null;
  /** In force now; only the day texts tell of them. */
  readonly silences: readonly Silence[];
  /** Stations by id, the contact that the message is about, as people call them. */
  readonly stationName: (id: string) => string;
  /** What is known of a station by its id; null: nothing. */
  readonly stationOf: (id: string) => StationFacts | null;
  readonly contactName: string | null;
  /** By a digit that is sent back, or by the link alone, where nothing can be sent back. */
  readonly answersBy: 'digit' | 'link';
  /** Where to answer with a browser. */
  readonly answerUrl: string | null;
}

export interface RenderedText {
  readonly subject: string;
  /** One segment. */
  readonly text: string;
  /** The same with the link to answer by, where there is one: for what has room for it. */
  readonly linked: string;
  /** The long form, for mail. */
  readonly body: string;
  readonly html: string;
  /** Null; or that the words failed and these are the fixed ones, to be counted. */
  readonly fault: string | null;
}

/** What a kind of message comes to, before it is cut to size. */
export interface Composed {
  /** What to do, in a few words. */
  readonly order: string;
  /** In the order in which they are read. */
  readonly pieces: readonly Piece[];
  /** Sentences of the long form, after the order. */
  readonly lines: readonly string[];
}

export interface Form {
  /** In the alphabet; worked out when it is first asked for. */
  text(): string;
  /** When it is fallen back to: the least first; the first form needs none. */
  readonly rank: number;
}

/** A part of a text in its forms, the longest first. */
export type Piece = readonly Form[];
