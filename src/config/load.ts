// Reads a configuration file and lists every fault at once, each with its path.

import { readFileSync } from 'node:fs';
import { parseDocument } from 'yaml';
import type { z } from 'zod';
import { messageOf, ServiceError } from '#errors.ts';
import { crossFaults } from './cross-checks.ts';
import { type Config, configSchema } from './schema.ts';

export interface ConfigFault {
  /** `sites[0].limits`, or `line 12` where the text is no YAML. */
  readonly path: string;
  readonly message: string;
}

/** A configuration with what was written: definitions are kept as written, in the units of their owners. */
export interface ReadConfig {
  readonly config: Config;
  /** JSON values. */
  readonly written: Readonly<Record<string, unknown>>;
}

/** Loads a file. Throws ServiceError `config_unreadable` or `config_invalid` (facts.faults: ConfigFault[]). */
export const loadConfig = (file: string): Config => readConfigFile(file).config;

export function readConfigFile(file: string): ReadConfig {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (cause) {
    const missing = (cause as { code?: string }).code === 'ENOENT';
    const why = missing
      ? 'no such file; see README.md for one to begin with, or try --demo'
      : messageOf(cause);
    throw new ServiceError('config_unreadable', `cannot read ${file}: ${why}`, { cause });
  }
  return readConfig(text, file);
}

export const parseConfig = (text: string, file: string): Config => readConfig(text, file).config;

export function readConfig(text: string, file: string): ReadConfig {
  const document = parseDocument(text, { uniqueKeys: true, prettyErrors: true });
  const broken = document.errors.map((e) => ({
    path: `line ${e.linePos?.[0].line ?? '?'}`,
    message: firstLine(e.message),
  }));
  if (broken.length > 0) throw invalid(file, broken);
  const raw = unfolded(document, file);
  const parsed = configSchema.safeParse(raw);
  const faults = [...(parsed.success ? [] : faultsOf(parsed.error)), ...crossFaults(raw)];
  if (!parsed.success || faults.length > 0) throw invalid(file, faults);
  return { config: parsed.data, written: JSON.parse(JSON.stringify(raw)) as Record<string, unknown> };
}

/** The document with its aliases unfolded, up to a number that no honest file needs. */
function unfolded(document: ReturnType<typeof parseDocument>, file: string): unknown {
  try {
    return document.toJS({ maxAliasCount: 100 });
  } catch (cause) {
    throw invalid(file, [{ path: '(top level)', message: firstLine(messageOf(cause)) }]);
  }
}

function invalid(file: string, faults: readonly ConfigFault[]): ServiceError {
  const lines = faults.map((f) => `  ${f.path}: ${f.message}`).join('\n');
  const count = faults.length === 1 ? '1 fault' : `${faults.length} faults`;
  return new ServiceError('config_invalid', `${file} has ${count}:\n${lines}`, { facts: { faults } });
}

/** zod's issues as paths and sentences; the branches of a union are told by their deepest fault. */
export function faultsOf(error: z.ZodError): ConfigFault[] {
  return error.issues.map((issue) => ({ path: pathText(issue.path), message: sentenceOf(issue) }));
}

function sentenceOf(issue: z.core.$ZodIssue): string {
  if (issue.code === 'unrecognized_keys') {
    return `unknown ${issue.keys.length === 1 ? 'key' : 'keys'} ${issue.keys.map((k) => `"${k}"`).join(', ')}`;
  }
  if (issue.code === 'invalid_key') return issue.issues[0]?.message ?? issue.message;
  return issue.message.replace(/^Invalid input: /, '');
}

export const pathText = (path: readonly PropertyKey[]): string =>
  path.length === 0
    ? '(top level)'
    : path
        .map((part, i) => (typeof part === 'number' ? `[${part}]` : `${i > 0 ? '.' : ''}${String(part)}`))
        .join('');

const firstLine = (text: string): string => text.split('\n')[0]?.replace(/ at line \d+.*$/, '') ?? text;
