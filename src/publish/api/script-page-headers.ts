// Headers of a page with scripts: its own, from here, that may ask this service and nobody else.

const CSP = 'content-security-policy';
const MORE = "script-src 'self';connect-src 'self';worker-src 'self';manifest-src 'self'";

/** `headers`: of the page without. */
export const scriptPageHeaders = (headers: Readonly<Record<string, string>>): Record<string, string> => ({
  ...headers,
  [CSP]: `${(headers[CSP] ?? '').replace('img-src data:', "img-src 'self' data:")};${MORE}`,
});
