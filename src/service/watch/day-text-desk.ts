// The text about a day as the crew of a site gets it: what was sent, or what would be sent if it were due now.

import type { Contact } from '#core/notices/contact.ts';
import type { DayTextDue, DayTextKind } from '#core/notices/day-texts.ts';
import { isInForce } from '#core/notices/silence.ts';
import { standingVerdict } from '#core/notices/standing-verdict.ts';
import { addDays, clockTimeMs, type LocalDate, localDateAt } from '#core/units/local-time.ts';
import { withOptOuts } from '#jobs/watch/contacts-of.ts';
import { type DayTextMessage, dayTextOf } from '#jobs/watch/day-text-of.ts';
import type { SiteNow } from '#jobs/watch/send-deps.ts';
import type { WatchDeps, WatchedSite } from '#jobs/watch/watched-site.ts';
import type { DayTextSeen, WatchDesk } from '#publish/watch-desk.ts';
import type { KeptDayText, MessageThread } from '#store/watch/records.ts';

export interface DayTextDeps extends WatchDeps {
  /** The words of a message for one person. */
  words(message: DayTextMessage, contact: Contact, watched: WatchedSite, now: SiteNow): string;
}

export function dayTextDesk(deps: DayTextDeps): Pick<WatchDesk, 'dayText'> {
  return {
    async dayText(siteKey, about) {
      const watched = deps.view(siteKey);
      const due = watched && dueAbout(watched, about, deps.nowMs());
      if (watched === null || due === null) return null;
      const optOuts = await deps.store.watch.optOuts(watched.organisation);
      const crew = withOptOuts(watched.contacts, optOuts).filter(
        ({ role, optedOutAtMs }) => role === 'crew' && optedOutAtMs === null,
      );
      if (crew.length === 0) return null;
      const kept = await deps.store.watch.dayTexts(siteKey, addDays(due.date, -2));
      const told = kept.find(({ date, kind }) => date === due.date && kind === due.kind);
      const thread = told && (await deps.store.watch.thread(told.message));
      if (told && thread) return sentText(told, thread, crew);
      if (deps.nowMs() >= due.validUntilMs)
        return { kind: due.kind, state: 'missed', atMs: due.dueAtMs, texts: [] };
      const message = dayTextOf(due, watched.plan, kept, { ...deps, nowMs: deps.nowMs() });
      const [open, standing, silences] = await Promise.all([
        deps.store.watch.openBurns([siteKey]),
        deps.store.watch.standing([siteKey]),
        deps.store.watch.silences([siteKey], due.dueAtMs),
      ]);
      const now = {
        burnOpen: open.length > 0,
        standing: standingVerdict(standing),
        silences: silences.filter((silence) => isInForce(silence, due.dueAtMs)),
      };
      const texts = message ? eachOnce(crew, (contact) => deps.words(message, contact, watched, now)) : [];
      return { kind: due.kind, state: 'ahead', atMs: due.dueAtMs, texts };
    },
  };
}

/** Of today the dawn text tells, of a later day the evening text before it; null of a past day, or where none is sent. */
function dueAbout({ key, site, texts }: WatchedSite, about: LocalDate, nowMs: number): DayTextDue | null {
  const today = localDateAt(nowMs, site.timeZone);
  if (about < today) return null;
  const kind: DayTextKind = about === today ? 'dawn' : 'evening';
  const clock = texts[kind];
  if (clock === null) return null;
  const date = kind === 'dawn' ? about : addDays(about, -1);
  const dueAtMs = clockTimeMs(date, clock, site.timeZone);
  return { site: key, date, kind, about, dueAtMs, validUntilMs: dueAtMs + texts.lateMs };
}

/** What was said to the crew; what only waits to be handed over has no words yet. */
function sentText(
  { kind, atMs }: KeptDayText,
  { deliveries }: MessageThread,
  crew: readonly Contact[],
): DayTextSeen {
  const said = new Map(
    deliveries.flatMap(({ contact, said: words }) => (words === null ? [] : [[contact, words] as const])),
  );
  const texts = eachOnce(
    crew.filter(({ id }) => said.has(id)),
    ({ id }) => said.get(id) ?? '',
  );
  return { kind, state: 'sent', atMs, texts };
}

/** One text for each language and units that the crew reads. */
function eachOnce(crew: readonly Contact[], wordsFor: (contact: Contact) => string): DayTextSeen['texts'] {
  const first = new Map<string, Contact>();
  for (const contact of crew) {
    const reads = `${contact.language} ${contact.units}`;
    if (!first.has(reads)) first.set(reads, contact);
  }
  return [...first.values()].map((contact) => ({ language: contact.language, text: wordsFor(contact) }));
}
