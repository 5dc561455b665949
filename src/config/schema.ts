// The whole configuration as the operator writes it, strict: an unknown key is a fault, so that no limit can vanish.

import { z } from 'zod';
import type { LimitSet } from '#core/score/limit.ts';
import { isUsableContact } from '#core/units/contact.ts';
import { channelSettings } from '#notify/all.ts';
import { isAllowRange } from '#notify/outgoing-url.ts';
import { brokerList } from './brokers.ts';
import { capFields } from './cap.ts';
import { contactFields } from './contacts.ts';
import { definitionId, minutes } from './fields.ts';
import { limitList } from './limits.ts';
import { listen } from './listen.ts';
import { orderFields } from './orders.ts';
import { siteFields } from './sites.ts';
import { webhooks } from './webhooks.ts';

const perHour = z
  .int()
  .refine((min) => min >= 5 && 60 % min === 0, 'expected 5, 6, 10, 12, 15, 20, 30 or 60 minutes');

const nws = z.strictObject({
  baseUrl: z.url({ protocol: /^https?$/ }).default('https://api.weather.gov'),
  /** Between pulls of the same cell. */
  everyMin: perHour.default(20),
  /** The same while a shift lasts at one of its sites, or begins within three hours. */
  nearShiftMin: perHour.default(10),
  /** Between readings of the official alerts. */
  alertsMin: z.int().min(1).max(30).default(5),
});

/** Where what must be remembered is kept; DATABASE_URL in the environment names a PostgreSQL instead. */
const store = z.strictObject({
  /** Beside the configuration file. */
  file: z.string().trim().min(1).default('pitward.db'),
  keepPlansDays: z.int().min(7).max(36_500).default(400),
  keepObservationsDays: z.int().min(7).max(36_500).default(400),
  /** Burns, notices, what was told of them, and who changed what. Five years: 40 CFR 60.6135 has records of burns kept for as long. */
  keepBurnsDays: z.int().min(30).max(36_500).default(1826),
});

/** Called after every round that was whole, so that a watchdog elsewhere notices when none is. */
const heartbeat = z.strictObject({
  url: z.url({ protocol: /^https?$/ }),
  everyMin: z.int().min(1).max(60).default(5),
});

/** Work that many processes share. */
const turns = z.strictObject({
  /** Silence after which a worker's turns go to the others; to be the same in all of them, whose clocks agree better. */
  takeOverAfterS: z.int().min(10).max(45).default(30),
});

const preferences = z.strictObject({
  units: z.enum(['us', 'si']).default('us'),
  language: z.enum(['en', 'es']).default('en'),
});

/** How long those who were told have to answer before the next are told, and when they are told again. */
const escalation = z.strictObject({
  deadline: minutes.default(10),
  repeatAfter: z.array(minutes).max(6).default([5, 10, 15]),
});

/** A map with tiles for the board; without a file the board has the drawn one alone. */
const board = z.strictObject({
  /** A PMTiles file, beside the configuration file. */
  tiles: z.string().trim().min(1).optional(),
  /** Whom its ground is owed to, where the file does not say. */
  attribution: z.string().trim().min(1).max(300).optional(),
});

export const configSchema = z.strictObject({
  /** The NWS asks every program for a way to reach its operator. */
  contact: z
    .string()
    .trim()
    .refine(isUsableContact, 'expected an e-mail address or a web address of the operator, in plain letters'),
  /** Whose sites these are; keys keep organisations apart. Part of every site's address inside, so it has no slash. */
  organisation: definitionId.default('own'),
  listen: listen.prefault({}),
  sources: z.strictObject({ nws: nws.prefault({}) }).prefault({}),
  preferences: preferences.prefault({}),
  store: store.prefault({}),
  turns: turns.prefault({}),
  heartbeat: heartbeat.optional(),
  board: board.prefault({}),
  /** Brokers that stations name. */
  mqtt: brokerList.default([]),
  /** Where instruments may be that sites written through the API name as hosts. The file itself may name any. */
  stationHosts: z
    .array(z.string().refine(isAllowRange, 'expected an address or a range such as 10.20.0.0/16'))
    .default([]),
  limitSets: z.record(z.string().min(1), limitList),
  sites: z.array(siteFields).default([]),
  orders: z.array(orderFields).default([]),
  contacts: z.array(contactFields).default([]),
  /** Ways out, by the names under which contacts use them. */
  channels: z.record(definitionId, channelSettings).default({}),
  escalation: escalation.prefault({}),
  /** Where programs may be that ask to be sent what happens. */
  webhooks: webhooks.prefault({}),
  /** Messages for dispatch centres. */
  cap: capFields.prefault({}),
});

export type Config = z.output<typeof configSchema>;

export const limitSetNamed = (config: Config, name: string): LimitSet | null => {
  const set = Object.hasOwn(config.limitSets, name) ? config.limitSets[name] : undefined;
  return set ? { name, ...set } : null;
};
