// The contacts of an organisation with what they themselves have said since: who opted out is sent nothing.

import type { Contact } from '#core/notices/contact.ts';
import type { OptOut } from '#store/watch/records.ts';

/** An opt-out holds for the person, over whatever address it came; and for that address, whatever its owner is called now. */
export function withOptOuts(contacts: readonly Contact[], optOuts: readonly OptOut[]): Contact[] {
  if (optOuts.length === 0) return [...contacts];
  const byContact = new Map(optOuts.map((row) => [row.contact, row]));
  const byAddress = new Map(optOuts.map((row) => [row.address, row]));
  return contacts.map((contact) => {
    const row =
      byContact.get(contact.id) ??
      contact.ways.map(({ to }) => byAddress.get(to)).find((one) => one !== undefined);
    return row ? { ...contact, optedOutAtMs: row.optedOutAtMs } : contact;
  });
}
