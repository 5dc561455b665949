// What went wrong with a page is told as a page.

import type { FastifyInstance } from 'fastify';
import type { PlanDesk } from '#publish/desk.ts';
import { problemPage } from '#publish/page/problem-page.ts';
import { problemHeaders } from './problem.ts';
import { logged } from './send-problem.ts';

export function tellFaultsAsPages(
  pages: FastifyInstance,
  { demo, preferences }: Pick<PlanDesk, 'demo' | 'preferences'>,
): void {
  pages.setErrorHandler((fault, request, reply) => {
    const problem = logged(fault, request);
    return reply
      .code(problem.status)
      .headers(problemHeaders(fault))
      .type('text/html; charset=utf-8')
      .send(problemPage({ ...problem, demo, language: preferences.language }));
  });
}
