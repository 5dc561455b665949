// What a gateway's answer means, by rules that the operator wrote: some answer 200 to everything and tell the fault in the
// body.

import { z } from 'zod';

const scalar = z.union([z.string(), z.number(), z.boolean(), z.null()]);

/** A place in a JSON answer, as RFC 6901 writes it: `/messages/0/status`. */
export const jsonPointer = z
  .string()
  .regex(/^(\/([^~/]|~[01])*)*$/, 'expected a JSON pointer such as /messages/0/status');

export const answerCondition = z.union([
  z.strictObject({ statuses: z.array(z.int().min(100).max(599)).min(1) }),
  z.strictObject({ at: jsonPointer, equals: z.union([scalar, z.array(scalar).min(1)]) }),
  z.strictObject({ at: jsonPointer, exists: z.boolean() }),
  z.strictObject({ contains: z.string().min(1) }),
]);
export type AnswerCondition = z.output<typeof answerCondition>;

export const answerRule = z.strictObject({
  /** All of them must hold. */
  when: z.array(answerCondition).min(1),
  means: z.enum(['opted-out', 'bad-address', 'rate-limited', 'unavailable', 'refused', 'auth']),
});
export type AnswerRule = z.output<typeof answerRule>;

export interface Answer {
  readonly status: number;
  readonly text: string;
  /** The answer as JSON; undefined where it is none, or not all of it was read. */
  readonly json: unknown;
}

export const readAnswer = (status: number, text: string, isWhole: boolean): Answer => ({
  status,
  text,
  json: isWhole ? parsed(text) : undefined,
});

export function holds(condition: AnswerCondition, answer: Answer): boolean {
  if ('statuses' in condition) return condition.statuses.includes(answer.status);
  if ('contains' in condition) return answer.text.includes(condition.contains);
  const value = valueAt(answer.json, condition.at);
  if ('exists' in condition) return condition.exists === (value !== undefined && value !== null);
  const wanted = Array.isArray(condition.equals) ? condition.equals : [condition.equals];
  // Gateways write the same number as text and as a number from one release to the next.
  return (
    (value === null || ['string', 'number', 'boolean'].includes(typeof value)) &&
    wanted.some((one) => String(one) === String(value))
  );
}

export const allHold = (conditions: readonly AnswerCondition[], answer: Answer): boolean =>
  conditions.every((condition) => holds(condition, answer));

/** True where the rules look into JSON: an answer that is none then says nothing. */
export const asksJson = (conditions: readonly AnswerCondition[]): boolean =>
  conditions.some((condition) => 'at' in condition);

/** RFC 6901; undefined where there is nothing. */
export function valueAt(json: unknown, pointer: string): unknown {
  let value = json;
  for (const part of pointer.split('/').slice(1)) {
    const key = part.replaceAll('~1', '/').replaceAll('~0', '~');
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Readonly<Record<string, unknown>>)[key];
  }
  return value;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
