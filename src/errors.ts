// Every fault that the program can raise, by stable code. Expected facts (a missing value, a hold) are not faults.

/** Code → what it means. DEVELOPERS.md carries the same table; a test compares them. */
export const ERROR_CODES = {
  config_unreadable: 'the configuration file cannot be read or is no YAML',
  config_older:
    'the configuration file is one that another has replaced since; --go-back takes it all the same',
  config_invalid: 'the configuration has faults; all are listed with their paths',
  unknown_site: 'no site of that name is configured',
  bad_query: 'a query parameter is not what was expected',
  bad_body: 'the request body is not what was expected',
  body_too_large: 'the request body is larger or more deeply nested than allowed',
  not_found: 'no such page or resource',
  source_unreachable: 'the forecast source gave no answer',
  source_refused: 'the forecast source refused the request',
  source_unreadable: 'the forecast source answered with something that cannot be read',
  source_too_large: 'the forecast source answered with more bytes than allowed',
  outside_coverage: 'the forecast source has no forecast for that place',
  no_forecast: 'no forecast is at hand for the site yet',
  file_unreadable: 'a saved forecast cannot be read',
  store_unavailable: 'the store cannot read or write now',
  store_older: 'the store is as an older version of the program left it, and only a start brings it up',
  store_newer: 'the store was written by a newer version of the program',
  store_not_empty: 'a backup can be restored only into an empty store',
  backup_failed: 'the backup cannot be written',
  backup_unreadable: 'the backup cannot be read, or is not whole',
  document_missing: 'something was to be written that refers to a document that is not kept',
  changed_meanwhile: 'somebody else changed it since it was read',
  already_there: 'something of that name is there already',
  in_use: 'something else still names it',
  key_reused: 'the idempotency key came before with another request',
  not_kept: 'what a past answer was made from is no longer kept',
  claim_lost: 'another worker has taken over the work',
  unauthorized: 'no key, or none that is known, or one that has ended',
  forbidden: 'the key may not do that',
  misdirected: 'the request names another host',
  too_many_requests: 'more requests than allowed',
  overloaded: 'too much to do at this moment',
  precondition_required: 'a change must say which revision it replaces',
  usage: 'the command line is not what was expected',
  port_in_use: 'no free port was found',
  internal: 'a fault of the program',
} as const;

export type ErrorCode = keyof typeof ERROR_CODES;

export class ServiceError extends Error {
  override readonly name = 'ServiceError';
  readonly code: ErrorCode;
  /** True where the same call may succeed later. */
  readonly retryable: boolean;
  /** Facts for a caller that reads them by machine; never a secret. */
  readonly facts: Readonly<Record<string, unknown>>;

  constructor(
    code: ErrorCode,
    message: string,
    options: { cause?: unknown; retryable?: boolean; facts?: Record<string, unknown> } = {},
  ) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.code = code;
    this.retryable = options.retryable ?? false;
    this.facts = options.facts ?? {};
  }
}

/** One line for people about anything thrown. */
export function messageOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
