// Keeps everything fresh by the clock: every minute what is due is worked out and handed to the queue. Missed minutes ask
// for nothing of their own: after a pause what is due is worked out once.

import { type ScheduledTask, schedule } from 'node-cron';
import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import { inTurn } from '#memory/in-turn.ts';
import type { TurnDeps } from './deps.ts';
import { type DueSite, dueTurns, type Periods } from './due.ts';
import type { TurnQueue } from './queue.ts';
import type { Turn, TurnKind } from './turn.ts';

export interface KeeperOptions extends Pick<TurnDeps, 'mirror' | 'nowMs' | 'log'> {
  readonly queue: TurnQueue;
  readonly periods: Periods;
  /** Calls again and again until stopped. */
  readonly every: (ms: number, call: () => void) => () => void;
  /** See `ForecastRecords.forgetAhead`. */
  readonly forgetAhead: (nowMs: number) => Promise<void>;
  /** Whether a fire is open at a site. */
  readonly burning?: (siteKey: string) => boolean;
  /** Whether there are stations that are to be asked. */
  readonly observes?: () => boolean;
}

export interface Keeper {
  /** Works out what is due and hands it over; never throws. */
  minute(): Promise<void>;
  /** Something has become known that may be due: as `minute`, but not in the midst of `pullAll`. */
  nudge(): void;
  /** Brings everything to its newest now, due or not, one step after the other; for a start, and by hand. Never throws. */
  pullAll(): Promise<void>;
  /** Resolves when nothing that was handed over here still waits or is under way here. */
  idle(): Promise<void>;
  /** Goes on by the clock until stopped. */
  start(): void;
  stop(): Promise<void>;
}

export function createKeeper(options: KeeperOptions): Keeper {
  const { mirror, queue, periods, nowMs, log } = options;
  let stopClock: () => void | Promise<void> = () => undefined;
  let isStopped = false;
  let byHand = 0;
  let pulling = 0;
  // Null while one is worked out.
  let lastMinuteMs: number | null = nowMs();
  const dueNow = (): Turn[] => {
    const observes = options.observes?.() ?? false;
    return dueTurns({ sites: sitesOf(options), cell: mirror.cell, observes }, periods, nowMs());
  };

  const minute = inTurn(async () => {
    if (isStopped) return;
    lastMinuteMs = null;
    try {
      await mirror.sync();
      await queue.send(dueNow());
    } catch (fault) {
      log.warn({ message: messageOf(fault) }, 'what is due could not be worked out');
    } finally {
      lastMinuteMs = nowMs();
    }
  });

  /** Turns of one kind, each under a number of its own so that none counts as done. */
  async function all(kind: TurnKind, subjects: readonly string[]): Promise<void> {
    byHand += 1;
    const cycle = nowMs() * 1000 + byHand;
    await mirror.sync();
    await queue.send(subjects.map((subject) => ({ kind, subject, cycle })));
    await queue.idle();
  }

  async function pullAll(): Promise<void> {
    pulling += 1;
    try {
      await mirror.sync();
      const unlocated = dueNow().filter(({ kind }) => kind === 'locate');
      await all(
        'locate',
        unlocated.map(({ subject }) => subject),
      );
      await mirror.sync();
      const cells = new Set(sitesOf(options).flatMap(({ place }) => place?.cell ?? []));
      // Alerts are not left to wait for forecasts, nor the reverse.
      await Promise.all([all('pull', [...cells]), all('alerts', [''])]);
      await all('plan', ['']);
    } catch (fault) {
      log.warn({ message: messageOf(fault) }, 'not everything was brought to its newest');
    } finally {
      pulling -= 1;
    }
  }

  return {
    minute,
    nudge: () => {
      if (pulling === 0) void minute();
    },
    pullAll,
    idle: queue.idle,
    start() {
      // The clock may have been set right while nobody looked.
      void forgetting(options);
      stopClock = everyMinute(options, minute, () => lastMinuteMs);
    },
    async stop() {
      isStopped = true;
      await stopClock();
      await queue.stop();
    },
  };
}

/** More between two minutes, or as much less than none, and the clock has jumped or was stopped [ms]. */
const LOST_AFTER_MS = 1.5 * MINUTE_MS;
const WATCH_EVERY_MS = MINUTE_MS / 4;

/** Calls by the wall clock; of the minutes missed in sleep or in a jump of the clock one is made up for. */
function everyMinute(
  options: KeeperOptions,
  minute: () => Promise<void>,
  lastMs: () => number | null,
): () => Promise<void> {
  const { every, nowMs, log } = options;
  const begin = (): ScheduledTask =>
    schedule('* * * * *', minute, {
      noOverlap: true,
      // One that comes late is not left out; of many the last alone is not later than this.
      missedExecutionTolerance: MINUTE_MS,
      suppressMissedWarning: true,
      logger: loggerOf(log),
    });
  let task = begin();
  // After sleep the next minute may be long in coming, and a clock that was set back would be waited for until it has
  // caught up.
  const stopWatching = every(WATCH_EVERY_MS, () => {
    const sinceMs = nowMs() - (lastMs() ?? nowMs());
    if (Math.abs(sinceMs) <= LOST_AFTER_MS) return;
    log.warn({ sinceMs }, 'minutes were lost or the clock was set: what is due is worked out now');
    void task.destroy();
    task = begin();
    void forgetting(options).then(minute);
  });
  return async () => {
    stopWatching();
    await task.destroy();
  };
}

/** What was done while the clock was ahead is due again when its time comes. */
const forgetting = ({ forgetAhead, nowMs, log }: KeeperOptions): Promise<void> =>
  forgetAhead(nowMs()).catch((fault: unknown) =>
    log.warn({ message: messageOf(fault) }, 'claims dated ahead could not be forgotten'),
  );

const loggerOf = (log: KeeperOptions['log']) => ({
  debug: () => undefined,
  info: (message: string) => log.info({}, message),
  warn: (message: string) => log.warn({}, message),
  error: (message: string | Error) => log.warn({}, messageOf(message)),
});

const sitesOf = ({ mirror, burning }: KeeperOptions): DueSite[] =>
  [...mirror.book().sites].map(([key, { placeKey, fields }]) => {
    return {
      placeKey,
      shifts: fields.shift,
      place: mirror.place(placeKey),
      isBurning: burning?.(key) ?? false,
    };
  });
