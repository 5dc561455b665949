// The headers of a page by what it carries: a form may be sent here, scripts may come from here, and neither from elsewhere.

import { formPageHeaders } from './form-page-headers.ts';
import { scriptPageHeaders } from './script-page-headers.ts';

type Headers = Readonly<Record<string, string>>;

/** `headers`: of a page with neither. */
export function createHeadersFor(headers: Headers): (page: string) => Headers {
  const withForm = formPageHeaders(headers);
  const withScripts = scriptPageHeaders(headers);
  const withBoth = scriptPageHeaders(withForm);
  return (page) => {
    const hasForm = page.includes('<form ');
    if (page.includes('<script src=')) return hasForm ? withBoth : withScripts;
    return hasForm ? withForm : headers;
  };
}
