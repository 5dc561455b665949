// Plays a simulated shift on the real service, minute by minute on a clock of its own, and writes down what happened.

import type { ReadConfig } from '#config/load.ts';
import { clockTimeMs, parseInstantMs, rfc3339 } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { type PlayScenario, playScenario } from '#demo/play.ts';
import { ServiceError } from '#errors.ts';
import type { PlayedDay } from '#publish/page/played-day.ts';
import { openPlayedService, type PlayedService } from './open-played-service.ts';
import { createPlayers, type Players } from './players.ts';

const SITE = 'north-block';
const ZONE = 'America/Los_Angeles';
/** One and the same day, so that a seed always gives the same shift. */
const DATE = '2026-04-14';
/** Before the dawn text. */
const BEGINS = '04:40';
/** Played on for so long after the cover, to see that nothing more is told. */
const AFTER_COVER_MIN = 30;
const IDLE_STEP_MS = 5 * MINUTE_MS;

export interface PlayOptions {
  readonly seed: number;
  /** The demo's configuration as written. */
  readonly written: ReadConfig['written'];
  readonly version: string;
}

export async function playDay({ seed, written, version }: PlayOptions): Promise<PlayedDay> {
  const startMs = clockTimeMs(DATE, BEGINS, ZONE);
  const played = await openPlayedService(written, SITE, startMs, version);
  try {
    await played.service.keeper.pullAll();
    return await playOn(played, seed, startMs);
  } finally {
    await played.close();
  }
}

async function playOn(played: PlayedService, seed: number, startMs: number): Promise<PlayedDay> {
  const plan = await played.ask('GET', `/v1/sites/${SITE}/plan?day=today`);
  const at = (key: string): number => instantOf(plan, key);
  const times = { lightUpMs: at('lightUp'), lastChargeMs: at('lastCharge'), coveredByMs: at('coveredBy') };
  const scenario = playScenario(seed, times);
  const players = createPlayers(played, SITE);
  for (let ms = startMs; ms <= endOf(scenario, players); ms += stepMs(scenario, ms)) {
    played.clock.nowMs = ms;
    await playMinute(played, scenario, players, ms);
  }
  const from = encodeURIComponent(rfc3339(startMs, ZONE));
  const until = encodeURIComponent(rfc3339(played.clock.nowMs + MINUTE_MS, ZONE));
  const { messages } = await played.ask('GET', `/v1/sites/${SITE}/messages?from=${from}&to=${until}`);
  return {
    seed,
    site: String(plan['name']),
    timeZone: ZONE,
    ...times,
    entries: players.entries,
    messages: messages as PlayedDay['messages'],
  };
}

/** Before the first reading little happens. */
const stepMs = ({ firstReadingMs }: PlayScenario, ms: number): number =>
  ms < firstReadingMs - IDLE_STEP_MS ? IDLE_STEP_MS : MINUTE_MS;

const endOf = ({ endsAtMs }: PlayScenario, { coveredAtMs }: Players): number => {
  const covered = coveredAtMs();
  return covered === null ? endsAtMs : Math.min(endsAtMs, covered + AFTER_COVER_MIN * MINUTE_MS);
};

async function playMinute(
  { service }: PlayedService,
  scenario: PlayScenario,
  players: Players,
  ms: number,
): Promise<void> {
  if (ms === scenario.turnAtMs) players.windTurns(ms);
  for (const { tap, atMs } of scenario.taps) if (atMs === ms) await players.tap(tap, ms);
  const sinceFirstMs = ms - scenario.firstReadingMs;
  if (sinceFirstMs >= 0 && sinceFirstMs % scenario.everyMs === 0 && players.coveredAtMs() === null) {
    await players.read(scenario.reading(ms), ms);
  }
  const askedMs = players.officeAskedAtMs(scenario.turnAtMs);
  if (askedMs !== null && ms === askedMs + scenario.answer.afterMs)
    await players.answer(scenario.answer.by, ms);
  const answeredMs = players.answeredAtMs();
  if (answeredMs !== null && ms === answeredMs + scenario.coverAfterMs) await players.tap('covered', ms);
  await service.keeper.minute();
  await service.keeper.idle();
  await service.watching.escalate();
  await players.texts();
}

function instantOf(plan: Readonly<Record<string, unknown>>, key: string): number {
  const ms = parseInstantMs(String(plan[key]));
  if (ms === null) throw new ServiceError('internal', `the day that is played has no ${key}`);
  return ms;
}
