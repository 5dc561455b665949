// Whether a request was sent by a page of another site. Browsers say so in Sec-Fetch-Site and Origin (Fetch Metadata; RFC
// 6454); programs send neither.

export interface RequestOrigin {
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly secFetchSite: string | undefined;
}

export function isCrossSite({ host, origin, secFetchSite }: RequestOrigin): boolean {
  if (secFetchSite !== undefined && secFetchSite !== 'same-origin' && secFetchSite !== 'none') return true;
  if (origin === undefined) return false;
  // `null`, and whatever is no address, is nobody we know.
  return !URL.canParse(origin) || new URL(origin).host !== host?.toLowerCase();
}

/**
 * Whether the browser says that a page of ours sent it. What it says nothing of is not ours: the cookie goes along with what
 * any page sets going. `isSecure`: a page that came in the clear is then another one.
 */
export function isProvenOwn({ host, origin, secFetchSite }: RequestOrigin, isSecure: boolean): boolean {
  if (isCrossSite({ host, origin, secFetchSite })) return false;
  if (origin === undefined) return secFetchSite === 'same-origin';
  return !isSecure || origin.startsWith('https://');
}
