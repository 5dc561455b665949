// Numbers that a gateway gives as they are dialled within a country → as contacts have them (E.164).

export interface NationalNumbers {
  readonly countryCode: string;
  /** Of a number without its country. */
  readonly digits: number;
  /** Dialled before it within the country, and left out abroad; empty where there is none. */
  readonly trunk: string;
}

/** Null where it is not as long as one of that country's: nothing is guessed. `isMarked`: the gateway says it is national. */
export function withCountry(
  number: string,
  { countryCode, digits, trunk }: NationalNumbers,
  isMarked: boolean,
): string | null {
  if (number.startsWith('00')) return null;
  const isDialled = trunk !== '' && number.startsWith(trunk) && number.length === trunk.length + digits;
  const own = isDialled ? number.slice(trunk.length) : number;
  if (own.length === digits) return `+${countryCode}${own}`;
  // Some mark all of their country's numbers so, and give its code all the same.
  const isWhole = own.startsWith(countryCode) && own.length === countryCode.length + digits;
  return isMarked && isWhole ? `+${own}` : null;
}
