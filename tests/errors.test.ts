import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ERROR_CODES, ServiceError } from '#errors.ts';

it('DEVELOPERS.md lists every error code with its meaning, and no other', () => {
  const text = readFileSync(new URL('../DEVELOPERS.md', import.meta.url), 'utf8');
  const table = text.slice(text.indexOf('## Errors'), text.indexOf('## Findings'));
  const rows = [...table.matchAll(/^\| `(\w+)` \| (.+) \|$/gm)].map(([, code, meaning]) => [code, meaning]);
  expect(Object.fromEntries(rows)).toEqual({ ...ERROR_CODES });
});

it('a fault carries its code, whether to try again, and its cause', () => {
  const cause = new Error('reset');
  const fault = new ServiceError('source_unreachable', 'no answer', {
    cause,
    retryable: true,
    facts: { status: 502 },
  });
  expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true, facts: { status: 502 }, cause });
});
