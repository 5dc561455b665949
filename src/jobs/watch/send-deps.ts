// What sending needs beside the store: the channels by name, and the words.

import type { Contact } from '#core/notices/contact.ts';
import type { SendTimes } from '#core/notices/lease-fits.ts';
import type { Message } from '#core/notices/message.ts';
import type { Silence } from '#core/notices/silence.ts';
import type { Verdict } from '#core/rules/finding.ts';
import type { Channel, JsonValue } from '#notify/channel.ts';
import type { KeptDelivery } from '#store/watch/records.ts';
import type { WatchDeps, WatchedSite } from './watched-site.ts';

/** What a person is sent. */
export interface Said {
  readonly subject: string;
  /** Within one segment. */
  readonly text: string;
  readonly html: string | null;
  /** The person's own page to answer on; null where there is none, or nothing is asked. */
  readonly link: string | null;
  readonly event: { readonly type: string; readonly atMs: number; readonly data: JsonValue } | null;
}

/** How it is there at the moment of sending: a text of before must not say less than what was told since. */
export interface SiteNow {
  /** Whether a fire burns. */
  readonly burnOpen: boolean;
  /** The worst that stands; null: nobody looked. */
  readonly standing: Verdict | null;
  /** Silences of the site that are in force. */
  readonly silences: readonly Silence[];
}

/** Never throws: what cannot be put into words is told in plain ones. */
export type SayMessage = (
  message: Message,
  delivery: KeptDelivery,
  contact: Contact,
  watched: WatchedSite | null,
  now: SiteNow,
) => Said;

export interface SendDeps extends WatchDeps {
  channel(name: string): Channel | null;
  /** The channels by name, and how much each takes at once. */
  lanes(): ReadonlyMap<string, number>;
  readonly say: SayMessage;
  readonly worker: string;
  readonly times: SendTimes;
  readonly counted: SendCounts;
}

/** Counts for whoever watches the service. */
export interface SendCounts {
  delivered(channel: string, outcome: string, reason: string | null, waitedMs: number): void;
}
