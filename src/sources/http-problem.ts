// What an error answer says: problem details (RFC 9457), the server's tracing headers, and the URL fit for a log.

/** Headers of an answer, names in lower case. */
export type Headers = Readonly<Record<string, string>>;

export interface HttpProblem {
  /** Last segment of the type, `UnexpectedProblem`: the type was a URL and is becoming a URN. */
  readonly name: string | null;
  readonly title: string | null;
  readonly detail: string | null;
  readonly correlationId: string | null;
}

const NO_PROBLEM: HttpProblem = { name: null, title: null, detail: null, correlationId: null };

/** Reads problem details from an error body; all null where the body is something else, such as a gateway's HTML. */
export function readProblem(contentType: string, bytes: Uint8Array): HttpProblem {
  if (!isJsonType(contentType)) return NO_PROBLEM;
  let document: unknown;
  try {
    document = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return NO_PROBLEM;
  }
  if (typeof document !== 'object' || document === null) return NO_PROBLEM;
  const text = (name: string): string | null => {
    const value = (document as Record<string, unknown>)[name];
    return typeof value === 'string' && value !== '' ? value.slice(0, 300) : null;
  };
  return {
    name: text('type')?.split(/[/:#]/).at(-1) || null,
    title: text('title'),
    detail: text('detail'),
    correlationId: text('correlationId'),
  };
}

/** `application/json` and every `…+json`, whatever its parameters. */
export const isJsonType = (contentType: string): boolean =>
  /^[a-z]+\/(?:[a-z0-9.-]+\+)?json\s*(?:;|$)/i.test(contentType);

/** What the operators of the service ask for in a report. */
export const tracingFacts = (headers: Headers): Record<string, string | null> => ({
  correlationId: headers['x-correlation-id'] ?? null,
  requestId: headers['x-request-id'] ?? null,
  serverId: headers['x-server-id'] ?? null,
});

/** The reference number that a gateway prints on its block page; null where there is none. */
export function blockReference(bytes: Uint8Array): string | null {
  const page = new TextDecoder()
    .decode(bytes.subarray(0, 16_384))
    .replace(/&#(\d{2,3});/g, (_, code: string) => String.fromCharCode(Number(code)));
  return /Reference\s*#\s*([\w.]{4,80})/i.exec(page)?.[1] ?? null;
}

/** Query parameters that say where, not who. */
const OPEN_PARAMETERS = new Set(['point', 'zone', 'area', 'limit']);

/** A URL for logs and facts: without credentials, and with the values of unknown query parameters left out. */
export function safeUrl(url: URL): string {
  const shown = new URL(url);
  shown.username = '';
  shown.password = '';
  shown.hash = '';
  for (const name of [...shown.searchParams.keys()]) {
    if (!OPEN_PARAMETERS.has(name)) shown.searchParams.set(name, '-');
  }
  return shown.href;
}
