// What somebody wrote to us: a word to be left alone, an answer, or something that the office must read.

import type { Incoming } from '#core/notices/acknowledge.ts';
import type { Answer } from '#core/notices/answer.ts';
import type { Role } from '#core/notices/contact.ts';
import type { OfficeMatter } from '#core/notices/message.ts';
import { officeMatter } from '#jobs/watch/office-matter.ts';
import { siteKeyOf } from '#publish/site-key.ts';
import type { MessageDeskDeps } from './message-desk.ts';

interface Inbound {
  readonly channel: string;
  readonly id: string;
  readonly from: string;
  readonly text: string;
}

interface Sender {
  readonly organisation: string;
  readonly contact: string;
  readonly role: Role;
  /** One of theirs; where a pit burns, that one. */
  readonly site: string;
}

/** Reserved words first: whoever writes one is told nothing more, and the office is told so. */
export async function takeInbound(
  deps: MessageDeskDeps,
  { from: written, ...rest }: Inbound,
  answer: (incoming: Incoming) => Promise<readonly Answer[]>,
): Promise<{ taken: string }> {
  const inbound = { ...rest, from: deps.numberIn(written) };
  const { channel, id, from, text } = inbound;
  const { kind, word } = deps.inboundKind(text);
  if (kind === 'got-it' || kind === 'cannot') {
    const answers = await answer({
      id: `text ${channel} ${id}`,
      from: { via: 'digit', channel, address: from },
      said: kind,
      atMs: null,
      receivedAtMs: deps.nowMs(),
    });
    return { taken: answers.length > 0 ? 'answer' : 'no-open-message' };
  }
  const whose = await sendersAt(deps, channel, from);
  if (whose.length === 0) {
    await fromStranger(deps, inbound);
    return { taken: 'nobody-known' };
  }
  if (kind === 'other') {
    for (const sender of whose) await forward(deps, inbound, sender);
    return { taken: 'other' };
  }
  for (const sender of whose) await optOutOrIn(deps, inbound, sender, { kind, word });
  return { taken: kind };
}

async function optOutOrIn(
  deps: MessageDeskDeps,
  { id, from }: Inbound,
  { organisation, contact, site }: Sender,
  { kind, word }: { readonly kind: 'opt-out' | 'opt-in'; readonly word: string },
): Promise<void> {
  const { watch } = deps.store;
  const optedOutAtMs = kind === 'opt-out' ? deps.nowMs() : null;
  const row = { organisation, contact, address: from, optedOutAtMs, word };
  // Who opts in again opts in whatever they were called when they opted out.
  const before =
    kind === 'opt-in' ? (await watch.optOuts(organisation)).filter(({ address }) => address === from) : [];
  const optOuts = [row, ...before.map((one) => ({ ...one, optedOutAtMs }))];
  await watch.commit([{ site, replaces: null, optOuts }]);
  const what: OfficeMatter['what'] = kind === 'opt-out' ? 'opted-out' : 'opted-in';
  await officeMatter(deps, site, { what, contact, about: null, detail: word }, id);
}

/** As a message of its own, which is the record of it. What the office writes itself is kept, and told to nobody. */
async function forward(
  deps: MessageDeskDeps,
  { channel, id, text }: Inbound,
  { contact, role, site }: Sender,
): Promise<void> {
  if (text.trim() === '') return;
  const of = `${channel} ${id} ${site} ${contact}`;
  const matter = { what: 'wrote', contact, about: null, detail: text } as const;
  await officeMatter(deps, site, matter, of, role === 'office' ? 'kept' : 'told');
}

/** Kept each time; the office of whoever runs the service is told once of a number. */
async function fromStranger(deps: MessageDeskDeps, { channel, from, text }: Inbound): Promise<void> {
  const { organisation, nowMs } = deps;
  const site = [...deps.siteKeys()].find((key) => key.startsWith(`${organisation}/`));
  if (site === undefined || text.trim() === '') return;
  const detail = { channel, text };
  const row = { atMs: nowMs(), organisation, who: from, what: 'text-came-in', subject: channel, detail };
  await deps.store.watch.commit([{ site, replaces: null, audit: [row] }]);
  const matter = { what: 'wrote', contact: from, about: null, detail: text } as const;
  await officeMatter(deps, site, matter, `${channel} ${from}`);
}

/** The contacts with that address, each with one of its sites. */
async function sendersAt(deps: MessageDeskDeps, channel: string, address: string): Promise<Sender[]> {
  const open = new Set((await deps.store.watch.openBurns()).map(({ site }) => site));
  const keys = [...deps.siteKeys()].sort((a, b) => Number(open.has(b)) - Number(open.has(a)));
  const found = new Map<string, Sender>();
  for (const site of keys) {
    const organisation = site.slice(0, site.indexOf('/'));
    for (const { id, ways, sites, role } of deps.contactsOf(site)) {
      const isThere = ways.some((way) => way.channel === channel && way.to === address);
      const isHere = sites === null || sites.some((s) => siteKeyOf(organisation, s) === site);
      const key = `${organisation}/${id}`;
      if (isThere && isHere && !found.has(key)) found.set(key, { organisation, contact: id, role, site });
    }
  }
  return [...found.values()];
}
