// One file per mistake: each must be refused with exactly the paths and sentences that its head tells.

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type ConfigFault, loadConfig, parseConfig } from '#config/load.ts';
import { ServiceError } from '#errors.ts';

const DIR = fileURLToPath(new URL('../../fixtures/config/mistakes/', import.meta.url));
const FILES = readdirSync(DIR).sort();

function expectedFaults(text: string): ConfigFault[] {
  const paths = [...text.matchAll(/^# path: (.*)$/gm)].map((m) => m[1] ?? '');
  const says = [...text.matchAll(/^# says: (.*)$/gm)].map((m) => m[1] ?? '');
  return paths.map((path, i) => ({ path, message: says[i] ?? '' }));
}

function faultOf(file: string): ServiceError {
  try {
    loadConfig(file);
  } catch (fault) {
    if (fault instanceof ServiceError) return fault;
    throw new Error(
      `refused with a ${fault instanceof Error ? fault.name : typeof fault}, which no caller lists`,
      { cause: fault },
    );
  }
  throw new Error('the mistake was accepted');
}

const byPath = (a: ConfigFault, b: ConfigFault): number =>
  a.path.localeCompare(b.path) || a.message.localeCompare(b.message);

describe('a configuration with a mistake', () => {
  it('is tried in every file, and each says what to expect', () => {
    expect(FILES.length).toBeGreaterThan(60);
    for (const file of FILES)
      expect(expectedFaults(readFileSync(`${DIR}${file}`, 'utf8')).length, file).toBeGreaterThan(0);
  });

  it.each(FILES)('%s is refused with its path and sentence', (file) => {
    const fault = faultOf(`${DIR}${file}`);
    const expected = expectedFaults(readFileSync(`${DIR}${file}`, 'utf8'));
    expect(fault.code).toBe('config_invalid');
    expect([...(fault.facts['faults'] as ConfigFault[])].sort(byPath)).toEqual(expected.sort(byPath));
    for (const { path, message } of expected) expect(fault.message).toContain(`  ${path}: ${message}`);
  });
});

describe('a file that is not there', () => {
  it('is unreadable, and names itself', () => {
    const fault = faultOf(`${DIR}nowhere.yaml`);
    expect(fault.code).toBe('config_unreadable');
    expect(fault.message).toContain('nowhere.yaml');
  });
});

describe('keys that every object has', () => {
  const site = (more: string) =>
    `contact: a@b.example\nlimitSets: { s: [{ element: windSpeed, atMost: { hold: 12 mph }, source: ours }] }\nsites:\n  - { id: a, name: A, at: [40, -90], limits: s, shift: { days: [mon], from: "07:00", to: "17:00" }${more} }\n`;

  it.each(['constructor', 'toString', '__proto__'])('a limit set named %s is not there', (name) => {
    expect(() => parseConfig(site('').replace('limits: s', `limits: ${name}`), 'test')).toThrow(
      /no limit set/,
    );
  });

  it('a key __proto__ is unknown as any other', () => {
    expect(() => parseConfig(site(', __proto__: { daylight: none }'), 'test')).toThrow(
      /unknown key "__proto__"/,
    );
  });
});
