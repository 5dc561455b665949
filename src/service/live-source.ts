// The live source as the configuration names it.

import { setTimeout } from 'node:timers/promises';
import type { Config } from '#config/schema.ts';
import type { NextTurn } from '#sources/http-pace.ts';
import { createNwsSource, type NwsSource, type NwsSourceOptions } from '#sources/nws/client.ts';
import type { SourceLog } from '#sources/source.ts';

export type Sleep = (ms: number, signal: AbortSignal) => Promise<void>;

export const sleepFor: Sleep = (ms, signal) => setTimeout(ms, undefined, { signal });

export interface LiveSourceOptions {
  readonly config: Pick<Config, 'contact' | 'sources'>;
  readonly nowMs: () => number;
  readonly log: SourceLog;
  readonly sleep: Sleep;
  /** Said of a source that is our own, such as the demo's stand-in: it is asked as fast as it answers. */
  readonly ownSource: boolean;
  /** Where many processes ask together; left out: this one asks alone. */
  readonly nextTurn?: NextTurn;
  /** As of the source's own. */
  readonly alertsBefore?: NwsSourceOptions['alertsBefore'];
}

export const liveSource = ({
  config,
  nowMs,
  log,
  sleep,
  ownSource,
  nextTurn,
  alertsBefore,
}: LiveSourceOptions): NwsSource =>
  createNwsSource({
    baseUrl: config.sources.nws.baseUrl,
    contact: config.contact,
    nowMs,
    sleep,
    random: Math.random,
    log,
    ...(ownSource ? { pace: null } : {}),
    ...(nextTurn ? { nextTurn } : {}),
    ...(alertsBefore ? { alertsBefore } : {}),
  });
