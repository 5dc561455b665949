// The published contract of the watch, version 1: burns and their taps, observations, notices and what became of them.
// Fields may be added; none is renamed, removed or given another meaning.

import { z } from 'zod';
import { instant } from './wire-head.ts';

const verdict = z.enum(['go', 'hold', 'stop']);
const truth = z
  .enum(['true', 'false', 'unknown'])
  .describe('unknown: nobody can say; it never counts as over');

export const tapKind = z
  .enum(['lit', 'charging', 'burning-down', 'covered', 'put-out-early'])
  .describe(
    'lit, charging, burning-down, covered; put-out-early: put out before it had burned down, and still to be covered',
  );

export const tapSchema = z
  .object({
    id: z.string(),
    tap: tapKind,
    tappedAt: instant,
    receivedAt: instant,
    by: z.string(),
    from: z.string(),
    corrects: z.string().nullable().describe('the tap that this one replaces'),
    withdraws: z.boolean().describe('true: the tap that it corrects did not happen'),
    note: z.string(),
    counts: z.boolean().describe('false where a later tap has corrected it'),
  })
  .meta({ id: 'Tap' });

export const burnSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    state: tapKind,
    openedAt: instant,
    litAt: instant.nullable(),
    since: instant,
    closedAt: instant.nullable().describe('null while it is watched'),
    incidentRef: z.string().nullable().describe('what a dispatch center calls it, as it gave it'),
    briefedFrom: z
      .number()
      .nullable()
      .describe(
        'wind direction that the crew goes by: what it acknowledged last, else the forecast at light-up; degrees FROM, clockwise from north',
      ),
    briefings: z
      .array(
        z.object({
          at: instant,
          by: z.string().describe('which contact acknowledged it'),
          windFrom: z.number().describe('degrees clockwise from true north'),
          observedAt: instant,
          message: z.string().describe('the message that told it'),
        }),
      )
      .describe('winds that the crew acknowledged'),
    taps: z.array(tapSchema),
  })
  .meta({ id: 'Burn' });

export const burnsSchema = z.object({ burns: z.array(burnSchema) }).meta({ id: 'Burns' });

export const observationSchema = z
  .object({
    station: z.string(),
    observedAt: instant,
    receivedAt: instant,
    wind: z
      .enum(['blowing', 'variable', 'calm', 'missing'])
      .describe('four different things; only `blowing` has a direction'),
    windFrom: z.number().nullable().describe('degrees clockwise from true north, 360 is north'),
    windSpeedMps: z.number().nullable(),
    windHeightM: z.number().nullable(),
    windAveragingS: z.number().nullable(),
    gustMps: z.number().nullable(),
    relativeHumidityPct: z.number().nullable(),
    temperatureC: z.number().nullable(),
    pressurePa: z.number().nullable(),
    thunder: z.boolean().nullable(),
    quality: z.enum(['passed', 'unverified', 'doubtful']),
  })
  .meta({ id: 'Observation' });

export const observationsSchema = z
  .object({ observations: z.array(observationSchema) })
  .meta({ id: 'Observations' });

export const observedSchema = z
  .object({
    results: z.array(
      z.object({
        index: z.int(),
        outcome: z.enum(['kept', 'duplicate', 'corrected', 'refused']),
        why: z.string().nullable(),
        path: z.string().nullable().describe('the field at fault, where one is'),
      }),
    ),
  })
  .meta({ id: 'Observed' });

export const conditionSchema = z
  .object({
    code: z.string().describe('stable code of what is watched for'),
    subject: z.string().describe('which of several: an element, a place, a station'),
    truth,
    verdict: verdict.describe('what it means while true; go is advice'),
    basis: z.enum(['observed', 'forecast', 'record', 'order']),
    asOf: instant.nullable(),
    text: z.string(),
  })
  .meta({ id: 'Condition' });

export const noticeSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    code: z.string(),
    subject: z.string(),
    phase: z.string(),
    since: instant,
    raisedAt: instant.nullable(),
    verdict: verdict.nullable().describe('the worst that was told of it'),
    acknowledgedAt: instant.nullable(),
    acknowledgedBy: z.string().nullable(),
    condition: conditionSchema,
  })
  .meta({ id: 'Notice' });

export const noticesSchema = z.object({ notices: z.array(noticeSchema) }).meta({ id: 'Notices' });

export const deliverySchema = z
  .object({
    contact: z.string(),
    channel: z.string(),
    step: z.int().describe('0 is told first'),
    round: z.int().describe('0 for the first time, then each repeat'),
    outcome: z
      .string()
      .describe('waiting, sending, sent, failed, expired; uncertain: it may or may not have arrived'),
    reason: z.string().nullable(),
    dueAt: instant,
    settledAt: instant.nullable(),
    deliveredAt: instant
      .nullable()
      .describe('when the network said that it had arrived; null: it has not said so'),
  })
  .meta({ id: 'Delivery' });

export const messageSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    at: instant,
    kind: z.string(),
    verdict,
    text: z.string(),
    validUntil: instant,
    needsAnswer: z.boolean(),
    answers: z.array(z.object({ contact: z.string(), answer: z.string(), at: instant, via: z.string() })),
    deliveries: z.array(deliverySchema),
  })
  .meta({ id: 'Message' });

export const messagesSchema = z.object({ messages: z.array(messageSchema) }).meta({ id: 'Messages' });

export const silenceSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    code: z.string().nullable().describe('null: all of the site'),
    role: z.string().describe('as whom: only the office silences a stop that was observed'),
    from: instant,
    until: instant,
    reason: z.string(),
    by: z.string(),
    endedAt: instant.nullable(),
  })
  .meta({ id: 'Silence' });

export const silencesSchema = z.object({ silences: z.array(silenceSchema) }).meta({ id: 'Silences' });

export const nowSchema = z
  .object({
    site: z.string(),
    name: z.string(),
    timeZone: z.string(),
    asOf: instant,
    verdict: verdict.describe('the worse of plan and watch'),
    unknown: z.boolean().describe('true where it is hold because nobody can say'),
    whatToDo: z.string(),
    text: z.string().describe('the ground for it, in one sentence'),
    planVerdict: verdict.describe('of the plan alone; hold where it is too late to light and nothing burns'),
    burn: burnSchema.nullable().describe('the burn that is open'),
    lightUp: instant.nullable(),
    lastCharge: instant.nullable(),
    coveredBy: instant.nullable(),
    observation: observationSchema
      .nullable()
      .describe('the one that is judged by; sources are ranked, never averaged'),
    conditions: z.array(conditionSchema).describe('true and unknown ones, worst first'),
    notices: z.array(noticeSchema).describe('those that are not over'),
    silences: z
      .array(silenceSchema)
      .describe('in force now: what of this the crew is not told, by whom and until when'),
    forecastMadeAt: instant.nullable().describe("the forecast document's own update time"),
    goodUntil: instant.describe('a go of this answer is void after this moment: ask again before it'),
    demo: z.boolean(),
    caution: z.string(),
  })
  .meta({ id: 'Now' });

export type TapAnswer = z.output<typeof tapSchema>;
export type BurnAnswer = z.output<typeof burnSchema>;
export type ObservationAnswer = z.output<typeof observationSchema>;
export type ObservedAnswer = z.output<typeof observedSchema>;
export type ConditionAnswer = z.output<typeof conditionSchema>;
export type NoticeAnswer = z.output<typeof noticeSchema>;
export type MessageAnswer = z.output<typeof messageSchema>;
export type SilenceAnswer = z.output<typeof silenceSchema>;
export type NowAnswer = z.output<typeof nowSchema>;
