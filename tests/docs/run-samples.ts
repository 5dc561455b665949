// Runs the samples of a page of the documentation as they stand. A sample ends by itself, or when it has printed what the
// comment before it says (<!-- until: … -->). No test in here.

import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export interface Sample {
  readonly language: 'js' | 'sh';
  readonly until: string | null;
  /** The heading that it stands under. */
  readonly heading: string;
  readonly code: string;
}

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export function samplesOf(page: string): Sample[] {
  const text = readFileSync(`${ROOT}${page}`, 'utf8');
  const blocks = text.matchAll(/(?:<!-- until: (.+) -->\n)?^```(js|sh)\n([\s\S]*?)^```$/gm);
  return [...blocks].map(({ index, 1: until = null, 2: language, 3: code = '' }) => ({
    language: language as Sample['language'],
    until,
    heading: /.*^## (.+?)$/ms.exec(text.slice(0, index))?.[1] ?? '',
    code,
  }));
}

export interface Ran {
  readonly out: string;
  readonly err: string;
  /** Null: it was ended, having printed what it was to print. */
  readonly exit: number | null;
}

export function runSample({ language, until, code }: Sample, env: Record<string, string>): Promise<Ran> {
  const [program, words] =
    language === 'js'
      ? [process.execPath, ['--input-type=module', '--eval', code]]
      : ['sh', ['-e', '-c', code]];
  const child = spawn(program, words, { cwd: ROOT, env: { PATH: process.env['PATH'], ...env } });
  let [out, err] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
    if (until !== null && out.includes(until)) child.kill('SIGKILL');
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (exit) => resolve({ out, err, exit }));
  });
}
