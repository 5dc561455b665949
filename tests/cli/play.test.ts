import { expect, it } from 'vitest';
import { run } from './run.ts';

it('play prints the whole shift, DEMO first', {
  timeout: 60_000,
}, async () => {
  const { code, out, err } = await run(['play', '--seed', '7']);
  expect([code, err]).toEqual([0, '']);
  expect(out).toMatch(/^DEMO: invented/);
  expect(out).toMatch(
    /Marit taps: lit[\s\S]*> GO[\s\S]*The wind turns[\s\S]*\[\] STOP[\s\S]*Text to Marit[\s\S]*Text to Teo[\s\S]*Text to Hollowreed office[\s\S]*answers: 1[\s\S]*taps: covered/,
  );
  expect(out).toContain('A forecast is not a permit');
});

it('play speaks Spanish, and JSON', { timeout: 60_000 }, async () => {
  const { out } = await run(['play', '--seed', '7', '--lang', 'es', '--units', 'si']);
  expect(out).toMatch(/El viento gira[\s\S]*ALTO {2}Medido: viento [\d.]+ m\/s del/);
  const json = JSON.parse((await run(['play', '--seed', '7', '--demo', '--json'])).out);
  expect([json.demo, json.seed, json.entries.length > 20]).toEqual([true, 7, true]);
});

it.each([
  [['play', 'north-block'], /play takes no site/],
  [['play', '--seed', '0'], /--seed: expected a whole number from 1 to 9999, found "0"/],
  [['play', '--seed', '1.5'], /--seed: expected/],
  [['play', '--lang', 'fr'], /--lang: expected en or es/],
  [['play', '--config', 'own.yaml'], /play takes no --config/],
])('%j is wrong usage', async (args, expected) => {
  const { code, out, err } = await run(args);
  expect([code, out]).toEqual([2, '']);
  expect(err).toMatch(expected);
});
