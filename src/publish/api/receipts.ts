// What a gateway over HTTP says later of a text that it had taken.

import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ServiceError } from '#errors.ts';
import type { PlanDesk } from '#publish/desk.ts';
import { seesWhole } from '#publish/viewer.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';
import { problemSchema } from '#publish/wire.ts';
import { noQuery } from './query.ts';
import { viewerOf } from './request-viewer.ts';
import { takeForms } from './take-forms.ts';

const word = z.string().trim().min(1).max(200);

/** The names that gateways give to what they send; the first that is there counts. */
const receiptBody = z
  .object({
    reference: word.optional().describe('what the gateway called the text when it took it'),
    messageId: word.optional(),
    id: word.optional(),
    state: word
      .optional()
      .describe(
        'delivered, undelivered, failed, rejected, expired, deleted, or one of the states of SMPP 3.4 (DELIVRD, UNDELIV …); any other is none yet',
      ),
    status: word.optional(),
    code: word.optional().describe('why, as the network says'),
    error: word.optional(),
  })
  .loose();

/** The words of SMPP 3.4 (appendix B) and their plain forms, in lower case. */
const STATES: Readonly<Record<string, 'delivered' | 'failed' | 'expired'>> = {
  delivered: 'delivered',
  delivrd: 'delivered',
  undelivered: 'failed',
  undeliverable: 'failed',
  undeliv: 'failed',
  failed: 'failed',
  rejected: 'failed',
  rejectd: 'failed',
  deleted: 'failed',
  expired: 'expired',
};

const notWhole = (): ServiceError =>
  new ServiceError('forbidden', 'what a channel says of texts is told by whoever runs the service');

/** As with texts that come in, only whoever runs a channel may say what became of what went out by it. */
export function addReceiptRoute(app: FastifyInstance, { organisation }: PlanDesk, watch: WatchDesk): void {
  app.register((routes, _options, done) => {
    takeForms(routes);
    routes.post<{ Params: { channel: string }; Body: z.output<typeof receiptBody> }>(
      '/v1/receipts/:channel',
      {
        config: { scope: 'notify' },
        schema: {
          summary: 'What became of a text, as the gateway that took it says later',
          tags: ['notices'],
          params: z.strictObject({ channel: z.string().max(80) }),
          querystring: noQuery,
          body: receiptBody,
          response: {
            200: z.object({
              taken: z.enum(['delivered', 'undelivered', 'pending']).describe('what it was taken for'),
            }),
            400: problemSchema,
            404: problemSchema,
            503: problemSchema,
          },
        },
      },
      async (request) => {
        if (!seesWhole(viewerOf(request), organisation)) throw notWhole();
        const { reference, messageId, id, state, status, code, error } = request.body;
        const named = reference ?? messageId ?? id;
        const said = state ?? status;
        if (named === undefined || said === undefined) {
          const path = named === undefined ? 'reference' : 'state';
          throw new ServiceError('bad_body', `${path}: expected which text, and what became of it`, {
            facts: { faults: [{ path, message: 'is lacking' }] },
          });
        }
        const became = STATES[said.toLowerCase()] ?? 'pending';
        const why = code ?? error ?? null;
        return { taken: await watch.receipt(request.params.channel, named, became, why) };
      },
    );
    done();
  });
}
