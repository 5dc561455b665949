// Keeps everything fresh by the clock: every minute what is due is worked out and handed to the queue. Missed minutes ask
// for nothing of their own.

import { schedule } from 'node-cron';
import { placeKeyAt } from '#core/site/place-key.ts';
import { messageOf } from '#errors.ts';
import type { TurnDeps } from './deps.ts';
import { type DueSite, dueTurns, type Periods } from './due.ts';
import type { TurnQueue } from './queue.ts';
import type { Turn, TurnKind } from './turn.ts';

export interface KeeperOptions extends Pick<TurnDeps, 'mirror' | 'nowMs' | 'log'> {
  readonly queue: TurnQueue;
  readonly periods: Periods;
}

export interface Keeper {
  /** Works out what is due and hands it over; never throws. */
  minute(): Promise<void>;
  /** Brings everything to its newest now, due or not, one step after the other; for a start, and by hand. Never throws. */
  pullAll(): Promise<void>;
  /** Goes on by the clock until stopped. */
  start(): void;
  stop(): Promise<void>;
}

export function createKeeper(options: KeeperOptions): Keeper {
  const { mirror, queue, periods, nowMs, log } = options;
  let stopTask: () => void | Promise<void> = () => undefined;
  let byHand = 0;
  const dueNow = (): Turn[] => dueTurns({ sites: sitesOf(options), cell: mirror.cell }, periods, nowMs());

  async function minute(): Promise<void> {
    try {
      await mirror.sync();
      await queue.send(dueNow());
    } catch (fault) {
      log.warn({ message: messageOf(fault) }, 'what is due could not be worked out');
    }
  }

  /** Turns of one kind, each under a number of its own so that none counts as done. */
  async function all(kind: TurnKind, subjects: readonly string[]): Promise<void> {
    byHand += 1;
    const cycle = nowMs() * 1000 + byHand;
    await mirror.sync();
    await queue.send(subjects.map((subject) => ({ kind, subject, cycle })));
    await queue.idle();
  }

  async function pullAll(): Promise<void> {
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
    }
  }

  return {
    minute,
    pullAll,
    start() {
      const task = schedule('* * * * *', () => minute(), { noOverlap: true });
      stopTask = () => task.destroy();
    },
    async stop() {
      await stopTask();
      await queue.stop();
    },
  };
}

const sitesOf = ({ mirror }: KeeperOptions): DueSite[] =>
  [...mirror.book().sites.values()].map(({ fields }) => {
    const key = placeKeyAt(fields.at);
    return { placeKey: key, shifts: fields.shift, place: mirror.place(key) };
  });
