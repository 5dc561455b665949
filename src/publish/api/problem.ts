// Faults → RFC 9457 problem details. The message of a fault of ours stays inside; everything else says what was expected.

import { type ErrorCode, ServiceError } from '#errors.ts';
import { CHALLENGES } from '#publish/access/credentials.ts';
import { withoutSecrets } from '#publish/access/without-secrets.ts';
import type { Problem } from '#publish/wire.ts';

const STATUS: Readonly<Record<ErrorCode, number>> = {
  config_unreadable: 500,
  config_invalid: 500,
  config_older: 500,
  unknown_site: 404,
  bad_query: 400,
  bad_body: 400,
  body_too_large: 413,
  not_found: 404,
  source_unreachable: 502,
  source_refused: 502,
  source_unreadable: 502,
  source_too_large: 502,
  outside_coverage: 422,
  no_forecast: 503,
  file_unreadable: 500,
  store_unavailable: 503,
  store_older: 500,
  store_newer: 500,
  store_not_empty: 500,
  backup_failed: 500,
  backup_unreadable: 500,
  document_missing: 500,
  changed_meanwhile: 412,
  already_there: 409,
  in_use: 409,
  key_reused: 422,
  not_kept: 410,
  claim_lost: 500,
  unauthorized: 401,
  forbidden: 403,
  misdirected: 421,
  too_many_requests: 429,
  overloaded: 503,
  precondition_required: 428,
  usage: 400,
  port_in_use: 500,
  internal: 500,
};

const TITLE: Readonly<Record<number, string>> = {
  400: 'Not what was expected',
  401: 'Who asks?',
  403: 'Not allowed',
  404: 'Not found',
  409: 'In the way',
  410: 'No longer kept',
  412: 'Changed meanwhile',
  413: 'Too large',
  415: 'Not JSON',
  421: 'Another host',
  422: 'Cannot be done',
  428: 'Which revision?',
  429: 'Too many requests',
  500: 'Fault of the service',
  502: 'The forecast source gave no answer',
  503: 'No answer at hand',
};

export function problemOf(fault: unknown): Problem {
  const error = asServiceError(fault);
  const status = STATUS[error.code];
  const faults = (error.facts['faults'] as Problem['faults'])?.map(({ path, message }) => ({
    path: withoutSecrets(path),
    message: withoutSecrets(message),
  }));
  const usedBy = error.facts['usedBy'] as Problem['usedBy'];
  return {
    type: `urn:pitward:problem:${error.code}`,
    title: TITLE[status] ?? 'Fault',
    status,
    detail: detailOf(error, status),
    code: error.code,
    ...(faults ? { faults } : {}),
    ...(usedBy ? { usedBy } : {}),
  };
}

/** What lies inside is told to the log alone: faults of the program, and where and how the store failed. */
function detailOf({ code, message }: ServiceError, status: number): string {
  if (status === 500) return 'The service has a fault; it is logged. No answer is no go.';
  if (code === 'store_unavailable')
    return 'The store cannot be read or written now; why is logged. No answer is no go.';
  return withoutSecrets(message);
}

/** What is not at hand now may be at the next round of the loops that see to it. */
const RETRY_AFTER_S = 5;

/** Headers that go with a fault: when to ask again, and how to say who asks. */
export function problemHeaders(fault: unknown): Readonly<Record<string, string | string[]>> {
  if (!(fault instanceof ServiceError)) return {};
  const { retryAfterS = STATUS[fault.code] === 503 ? RETRY_AFTER_S : null } = fault.facts;
  return {
    ...(typeof retryAfterS === 'number' ? { 'retry-after': String(retryAfterS) } : {}),
    ...(fault.code === 'unauthorized' ? { 'www-authenticate': [...CHALLENGES] } : {}),
  };
}

/** What Fastify throws, as far as it concerns us. */
interface FrameworkFault {
  readonly statusCode?: number;
  readonly code?: string;
  readonly message?: string;
  readonly validation?: readonly { readonly instancePath?: string; readonly message?: string }[];
  readonly validationContext?: string;
}

/** Faults of the web framework in our own codes; anything else unknown is internal. */
function asServiceError(fault: unknown): ServiceError {
  if (fault instanceof ServiceError) return fault;
  const { statusCode, code, message, validation, validationContext } = (fault ?? {}) as FrameworkFault;
  // A name that nothing can have.
  if (validation && validationContext === 'params') return new ServiceError('not_found', 'no such address');
  if (validation) return fromValidation(validation, validationContext === 'body' ? 'bad_body' : 'bad_query');
  if (code === 'FST_ERR_CTP_BODY_TOO_LARGE')
    return new ServiceError('body_too_large', 'the body may have at most 64 KiB');
  if (code === 'FST_ERR_BAD_URL' || code === 'FST_ERR_MAX_PARAM_LENGTH' || statusCode === 414) {
    return new ServiceError('not_found', 'no such address');
  }
  if (statusCode === 400 || statusCode === 415)
    return new ServiceError('bad_body', message ?? 'expected a JSON body', { cause: fault });
  if (statusCode === 404) return new ServiceError('not_found', 'no such resource');
  return new ServiceError('internal', message ?? 'unknown fault', { cause: fault });
}

function fromValidation(
  validation: NonNullable<FrameworkFault['validation']>,
  code: 'bad_body' | 'bad_query',
): ServiceError {
  const whole = code === 'bad_body' ? '(body)' : '(query)';
  const faults = validation.map(({ instancePath = '', message = 'not what was expected' }) => ({
    path: instancePath.replace(/^\//, '').replaceAll('/', '.') || whole,
    message: message.replace(/^Unrecognized keys?:/, 'unknown parameter').replace(/^Invalid input: /, ''),
  }));
  return new ServiceError(code, faults.map((f) => `${f.path}: ${f.message}`).join('; '), {
    facts: { faults },
  });
}
