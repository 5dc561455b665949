// Telephone numbers as the ITU writes them (E.164: a plus sign, the country, at most 15 digits).

/** The number without blanks and marks; null where it is none. */
export function phoneNumber(text: string): string | null {
  const tight = text.replace(/[\s().-]/g, '');
  return /^\+[1-9]\d{6,14}$/.test(tight) ? tight : null;
}
