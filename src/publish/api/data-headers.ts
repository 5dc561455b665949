// What browsers must not do with an answer that is no page. Programs read it, so it carries only what does something to
// data: each header more costs time on every answer.

/**
 * Not to be taken for a script or a style (nosniff), nor embedded by a page elsewhere where the browser sends the key by
 * itself (CORP), and harmless where it is opened or framed as if it were a page (CSP).
 */
export const DATA_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
  'cross-origin-resource-policy': 'same-origin',
  'x-content-type-options': 'nosniff',
};
