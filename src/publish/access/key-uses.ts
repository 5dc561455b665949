// When each key was last used, written in batches: at most once a minute, whatever the number of requests.

import { MINUTE_MS } from '#core/units/time.ts';

export interface KeyUses {
  note(prefix: string, nowMs: number): void;
  /** Writes what is not written yet. */
  flush(): Promise<void>;
}

export interface KeyUsesOptions {
  write(lastUsed: ReadonlyMap<string, number>): Promise<void>;
  /** Runs later, once; must not keep the process alive. */
  later?(afterMs: number, run: () => void): void;
  failed(fault: unknown): void;
}

const EVERY_MS = MINUTE_MS;

const unheld = (afterMs: number, run: () => void): void => {
  setTimeout(run, afterMs).unref();
};

/** A lone use is written at once; further ones within the minute are gathered. A failed write is tried with the next. */
export function createKeyUses({ write, later = unheld, failed }: KeyUsesOptions): KeyUses {
  let waiting = new Map<string, number>();
  let quiet = false;
  const flush = async (): Promise<void> => {
    if (waiting.size === 0) return;
    const batch = waiting;
    waiting = new Map();
    try {
      await write(batch);
    } catch (fault) {
      waiting = new Map([...batch, ...waiting]);
      failed(fault);
    }
  };
  const turn = (): void => {
    quiet = waiting.size > 0;
    if (!quiet) return;
    void flush();
    later(EVERY_MS, turn);
  };
  return {
    note(prefix, nowMs) {
      waiting.set(prefix, nowMs);
      if (!quiet) turn();
    },
    flush,
  };
}
