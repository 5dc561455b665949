// The contacts of an organisation with what they themselves have said since: who opted out is sent nothing.

import type { Contact } from '#core/notices/contact.ts';
import type { OptOut } from '#store/watch/records.ts';

/** An opt-out holds for the person, over whatever address it came. */
export function withOptOuts(contacts: readonly Contact[], optOuts: readonly OptOut[]): Contact[] {
  const newest = new Map<string, OptOut>();
  for (const row of optOuts) newest.set(row.contact, row);
  return contacts.map((contact) => {
    const row = newest.get(contact.id);
    return row ? { ...contact, optedOutAtMs: row.optedOutAtMs } : contact;
  });
}
