// Numbers on a page that no answer of the API has. No test in here.

import { clockOf } from './figure-faults.ts';
import { wordsOf } from './read-page.ts';

/** `others`: texts that the page was given besides. */
export function strayNumbers(page: string, answers: object, others: readonly string[]): string[] {
  const known = new Set([...others, ...leavesOf(answers).map(textOf)].flatMap(tokensOf));
  // The hours of the axis are on the site's clock and need be no moment of an answer.
  const visible = wordsOf(page.replace(/<text class="hr.*?<\/text>/g, ' '));
  const labels = [...page.matchAll(/aria-label="(.*?)"/g)].map((m) => m[1] ?? '').join(' ');
  return [...new Set([...tokensOf(visible), ...tokensOf(labels)])].filter((token) => !known.has(token));
}

/** Every text and number in what the API answers. */
function leavesOf(value: unknown): (string | number)[] {
  if (typeof value === 'string' || typeof value === 'number') return [value];
  if (value === null || typeof value !== 'object') return [];
  return Object.values(value).flatMap(leavesOf);
}

/** Made once: making one takes longer than all that it formats. */
const FORMATS = [0, 1, 2, 3].map((most) => new Intl.NumberFormat('en-US', { maximumFractionDigits: most }));

/** As pages write it: a number with none to three decimals, an instant as clock, hour of an axis and day of the month. */
function textOf(leaf: string | number): string {
  if (typeof leaf === 'number') return FORMATS.map((format) => format.format(Math.abs(leaf))).join(' ');
  if (!/^\d{4}-\d\d-\d\dT/.test(leaf)) return leaf;
  const clock = clockOf(leaf);
  return `${clock} ${clock.replace(/:00 .*/, '')} ${Number(leaf.slice(8, 10))}`;
}

const tokensOf = (text: string): string[] =>
  (text.match(/\d[\d,:]*(?:\.\d+)?/g) ?? []).map((token) => token.replace(/[,:]$/, ''));
