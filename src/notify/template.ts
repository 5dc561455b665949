// What a gateway wants to be sent, as data: a structure whose texts carry {to} {text} {id} {from} {validForS}, and whose
// secrets are names of environment variables. Nothing is pasted into JSON or a form: values are put into the structure,
// and the structure is written.

import { z } from 'zod';
import { secretName } from './outgoing-settings.ts';

export const PLACEHOLDERS = ['to', 'text', 'id', 'from', 'validForS'] as const;
export type Placeholder = (typeof PLACEHOLDERS)[number];
export type TemplateValues = Readonly<Record<Placeholder, string>>;

const KNOWN = new Set<string>(PLACEHOLDERS);
/** What looks like a placeholder must be one. */
const BRACES = /\{([A-Za-z]\w*)\}/g;

export const templateText = z.string().superRefine((text, context) => {
  for (const [whole, name] of text.matchAll(BRACES)) {
    if (KNOWN.has(name as string)) continue;
    const known = PLACEHOLDERS.map((p) => `{${p}}`).join(' ');
    context.addIssue({ code: 'custom', message: `unknown placeholder ${whole}; there are ${known}` });
  }
});

/** `{ $env: NAME }`, with what stands before it. */
export const secretNode = z.strictObject({ $env: secretName, before: z.string().default('') });

export const templateLeaf = z.union([templateText, secretNode]);
export type TemplateLeaf = z.output<typeof templateLeaf>;

export type TemplateNode =
  | TemplateLeaf
  | number
  | boolean
  | null
  | readonly TemplateNode[]
  | { readonly [key: string]: TemplateNode };

export const templateNode: z.ZodType<TemplateNode> = z.lazy(() =>
  z.union([
    templateText,
    z.number(),
    z.boolean(),
    z.null(),
    z.array(templateNode),
    secretNode,
    z.record(
      z.string().refine((key) => !key.startsWith('$'), 'a key that begins with $ can only be $env'),
      templateNode,
    ),
  ]),
);

export type Filled =
  | string
  | number
  | boolean
  | null
  | readonly Filled[]
  | { readonly [key: string]: Filled };

type Secret = (name: string) => string | null;

/** One text. Throws NotSetFault. */
export function fillLeaf(leaf: TemplateLeaf, values: TemplateValues, secret: Secret): string {
  if (typeof leaf === 'string')
    return leaf.replace(BRACES, (_whole, name: string) => values[name as Placeholder]);
  const value = secret(leaf.$env);
  if (value === null) throw new NotSetFault(leaf.$env);
  return `${leaf.before}${value}`;
}

/** A whole structure; `{validForS}` alone is a number in it. */
export function fillNode(node: TemplateNode, values: TemplateValues, secret: Secret): Filled {
  if (node === '{validForS}') return Number(values.validForS);
  if (typeof node === 'string' || isSecret(node)) return fillLeaf(node, values, secret);
  if (Array.isArray(node)) return node.map((n: TemplateNode) => fillNode(n, values, secret));
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(
    Object.entries(node as Readonly<Record<string, TemplateNode>>).map(([key, value]) => [
      key,
      fillNode(value, values, secret),
    ]),
  );
}

/** A secret that is not set. */
export class NotSetFault extends Error {
  readonly secretName: string;
  constructor(secret: string) {
    super(`the environment variable ${secret} is not set`);
    this.secretName = secret;
  }
}

const isSecret = (node: unknown): node is z.output<typeof secretNode> =>
  typeof node === 'object' && node !== null && '$env' in node;
