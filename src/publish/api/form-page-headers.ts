// Headers of a page with a form: it may send to this service, and says where it was sent from, since a browser that keeps
// that back sends an origin that nobody knows.

const CSP = 'content-security-policy';

/** `headers`: of every page. */
export const formPageHeaders = (headers: Readonly<Record<string, string>>): Record<string, string> => ({
  ...headers,
  [CSP]: (headers[CSP] ?? '').replace("form-action 'none'", "form-action 'self'"),
  'referrer-policy': 'same-origin',
});
