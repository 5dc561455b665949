// Prints plans of fixed random scenarios as JSON, one per line. Run as a program it does so in a process of its own zone.

import fc from 'fast-check';
import { makePlan } from '#core/plan/make-plan.ts';
import { scenarioArb, toInput } from './scenario.ts';

export const planLines = (count: number, seed: number): string[] =>
  fc.sample(scenarioArb, { numRuns: count, seed }).map((s) => {
    const { windows, findings, days, goodUntilMs } = makePlan(toInput(s));
    return JSON.stringify({ windows, findings, days, goodUntilMs });
  });

if (import.meta.main)
  process.stdout.write(`${new Date(2026, 2, 2).getTime()}\n${planLines(25, 4711).join('\n')}`);
