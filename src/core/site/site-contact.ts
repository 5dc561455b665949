// By what others know a site, and how they reach it: nothing is judged by it.

export interface SiteContact {
  readonly permit: { readonly number: string; readonly issuer: string | null } | null;
  /** As it is to be read; see `telLink`. */
  readonly phone: string | null;
  /** How to get there, in words. */
  readonly directions: string | null;
}

/**
 * Address of a number (RFC 3966): without what only parts it for the eye, an extension as a parameter. `555-0142 x12` is
 * `tel:5550142;ext=12`.
 */
export function telLink(phone: string): string {
  const [number = '', extension] = phone.toLowerCase().split('x');
  const digits = (text: string): string => text.replaceAll(/\D/g, '');
  const plus = number.trimStart().startsWith('+') ? '+' : '';
  return `tel:${plus}${digits(number)}${extension === undefined ? '' : `;ext=${digits(extension)}`}`;
}
