// The body of a what-if → a site with its limits; the limit sets of the organisation may be named.

import { z } from 'zod';
import { ordersFor, type SiteParts } from '#config/build-site.ts';
import { limitList } from '#config/limits.ts';
import { faultsOf } from '#config/load.ts';
import { type OrderFields, orderFields } from '#config/orders.ts';
import { siteFields } from '#config/sites.ts';
import type { LimitSet } from '#core/score/limit.ts';
import { ServiceError } from '#errors.ts';

const UNNAMED = { id: 'what-if', name: 'What-if', limits: 'in-the-body' };

/** `site` as in the configuration; `limits` a list beside it, or `site.limits` the name of a limit set. */
const whatIfBody = z.strictObject({
  site: z.preprocess(
    (site) => (typeof site === 'object' && site !== null ? { ...UNNAMED, ...site } : site),
    siteFields,
  ),
  limits: limitList.optional(),
});

/** What is defined beside the site of the body, as written. */
export interface Defined {
  readonly limitSets: ReadonlyMap<string, unknown>;
  readonly orders: readonly unknown[];
}

/** Throws ServiceError `bad_body` (facts.faults), `config_invalid` where an order in force cannot be read. */
export function readWhatIf({ limitSets, orders }: Defined, body: unknown): SiteParts {
  const parsed = whatIfBody.safeParse(body);
  if (!parsed.success) throw badBody(faultsOf(parsed.error));
  const { site: fields, limits: own } = parsed.data;
  // Limits that are named and then not used would mislead.
  if (own && fields.limits !== UNNAMED.limits)
    throw badBody([{ path: 'limits', message: 'expected either a list of limits or site.limits, not both' }]);
  const limits = own ? { name: UNNAMED.limits, ...own } : namedLimits(limitSets, fields.limits);
  if (limits) return { fields, limits, orders: ordersFor(orders.map(readOrder), fields) };
  const known = [...limitSets.keys()].join(', ') || 'none';
  throw badBody([
    { path: 'limits', message: `expected a list of limits, or site.limits naming one of: ${known}` },
  ]);
}

function readOrder(body: unknown): OrderFields {
  const parsed = orderFields.safeParse(body);
  if (parsed.success) return parsed.data;
  throw new ServiceError('config_invalid', `an order cannot be read: ${z.prettifyError(parsed.error)}`);
}

function namedLimits(limitSets: ReadonlyMap<string, unknown>, name: string): LimitSet | null {
  const parsed = limitList.safeParse(limitSets.get(name));
  return parsed.success ? { name, ...parsed.data } : null;
}

function badBody(faults: readonly { path: string; message: string }[]): ServiceError {
  const lines = faults.map((f) => `${f.path}: ${f.message}`).join('; ');
  return new ServiceError('bad_body', lines, { facts: { faults } });
}
