// Telephone numbers as the ITU writes them (E.164: a plus sign, the country, at most 15 digits).

/** A number that came in, as contacts have it: some gateways leave the plus sign out. What is no number stays as it is. */
export function inboundNumber(from: string): string {
  const tight = from.replace(/[\s().-]/g, '').replace(/^00(?=[1-9])/, '+');
  if (/^\d+$/.test(tight)) return `+${tight}`;
  return /^\+\d+$/.test(tight) ? tight : from;
}

/** The number without blanks and marks; null where it is none. */
export function phoneNumber(text: string): string | null {
  const tight = text.replace(/[\s().-]/g, '');
  return /^\+[1-9]\d{6,14}$/.test(tight) ? tight : null;
}
