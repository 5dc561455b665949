// A breaker for each host and kind of resource: one that fails time and again is left alone for a while, and then asked by
// one request, not by all. Grids that fail say nothing of alerts, so each kind is judged by itself.

import { ServiceError } from '#errors.ts';

export interface Asked {
  readonly host: string;
  /** The kind of what is asked for, `gridpoints`. */
  readonly kind: string;
  readonly address: string;
}

/** Leave to send one request. Its outcome is told with `answered` or `failed`; `end` is told in any case. */
export interface Permit {
  /** Throws as `admit` does where the host has come to be left alone while the request waited for its turn. */
  check(): void;
  answered(): void;
  /** `silent`: no answer came at all. An answer that is an error may be the fault of its address alone. */
  failed(silent: boolean): void;
  end(): void;
}

export interface LineState {
  readonly host: string;
  readonly kind: string;
  /** Since when every request failed; null where the host is not left alone. */
  readonly leftAloneSinceMs: number | null;
}

export interface Breaker {
  /**
   * Resolves when the request may go; while a trial is under way, after its outcome. Throws ServiceError
   * `source_unreachable` at once where the host is left alone; its facts say until when (`againAtMs`).
   */
  admit(asked: Asked, signal: AbortSignal): Promise<Permit>;
  /** Until when a request would be refused at that moment, as far as is known now; null where it would not. */
  refusedUntilMs(asked: Asked, atMs: number): number | null;
  states(): LineState[];
}

const FAILURES_IN_A_ROW = 5;
const SHORTEST_MS = 30_000;
const LONGEST_MS = 600_000;

/** What is known of one kind of resource of one host. */
interface Line {
  failures: number;
  sinceMs: number;
  firstAddress: string;
  /** Whether the failures in a row speak for more than one address. */
  isShared: boolean;
  open: Opening | null;
  trial: PromiseWithResolvers<void> | null;
}

interface Opening {
  readonly atMs: number;
  readonly coolingMs: number;
  /** The one address that was answered with an error in the last trial: another one may try before the time is up. */
  readonly blamed: string | null;
}

export function makeBreaker(nowMs: () => number): Breaker {
  const lines = new Map<string, Line>();
  const lineOf = ({ host, kind }: Asked): Line => {
    const key = `${host} ${kind}`;
    const line = lines.get(key) ?? newLine();
    lines.set(key, line);
    return line;
  };
  return {
    async admit(asked, signal) {
      const line = lineOf(asked);
      for (;;) {
        signal.throwIfAborted();
        const untilMs = refusedUntilMs(line, asked.address, nowMs());
        if (untilMs !== null) throw leftAlone(asked, line, untilMs);
        if (line.open === null) return permitOf(line, asked, null, nowMs);
        if (line.trial === null) {
          line.trial = Promise.withResolvers();
          return permitOf(line, asked, line.trial, nowMs);
        }
        await settled(line.trial.promise, signal);
      }
    },
    refusedUntilMs: (asked, atMs) => refusedUntilMs(lineOf(asked), asked.address, atMs),
    states: () =>
      [...lines].map(([key, { open, sinceMs }]) => {
        const [host = '', kind = ''] = key.split(' ');
        return { host, kind, leftAloneSinceMs: open === null ? null : sinceMs };
      }),
  };
}

const newLine = (): Line => ({
  failures: 0,
  sinceMs: 0,
  firstAddress: '',
  isShared: false,
  open: null,
  trial: null,
});

/** Until when an address is refused; null where it is not. A clock that was set back ends the time. */
function refusedUntilMs({ open }: Line, address: string, nowMs: number): number | null {
  if (open === null || (open.blamed !== null && open.blamed !== address)) return null;
  const untilMs = open.atMs + open.coolingMs;
  return nowMs >= open.atMs && nowMs < untilMs ? untilMs : null;
}

function permitOf(line: Line, asked: Asked, trial: Line['trial'], nowMs: () => number): Permit {
  const end = (): void => {
    if (trial === null || line.trial !== trial) return;
    line.trial = null;
    trial.resolve();
  };
  return {
    check() {
      if (trial !== null || line.open === null) return;
      throw leftAlone(asked, line, Math.max(nowMs(), line.open.atMs + line.open.coolingMs));
    },
    answered() {
      Object.assign(line, { ...newLine(), trial: line.trial });
      end();
    },
    failed(silent) {
      noteFailure(line, asked.address, silent, nowMs());
      if (line.open === null) {
        const isDown = line.failures >= FAILURES_IN_A_ROW && line.isShared;
        if (isDown) line.open = { atMs: nowMs(), coolingMs: SHORTEST_MS, blamed: null };
      } else if (trial !== null) {
        line.open = afterTrial(line.open, silent ? null : asked.address, nowMs());
      }
      end();
    },
    end,
  };
}

function noteFailure(line: Line, address: string, silent: boolean, nowMs: number): void {
  if (line.failures === 0) Object.assign(line, { sinceMs: nowMs, firstAddress: address });
  line.failures += 1;
  line.isShared ||= silent || line.firstAddress !== address;
}

/** The second address to fail in one round confirms the first; every round of trials doubles the time. */
function afterTrial(open: Opening, blamed: string | null, nowMs: number): Opening {
  const isOver = nowMs >= open.atMs + open.coolingMs || nowMs < open.atMs;
  if (!isOver) return { ...open, blamed: null };
  return { atMs: nowMs, coolingMs: Math.min(LONGEST_MS, 2 * open.coolingMs), blamed };
}

function leftAlone({ host }: Asked, { sinceMs }: Line, againAtMs: number): ServiceError {
  const since = new Date(sinceMs).toISOString();
  const again = new Date(againAtMs).toISOString();
  return new ServiceError(
    'source_unreachable',
    `${host} has failed since ${since} and is left alone until ${again}`,
    { retryable: true, facts: { host, sinceMs, againAtMs } },
  );
}

/** Resolves with the promise, which never rejects; rejects when called off. */
function settled(promise: Promise<void>, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    const leave = () => reject(signal.reason);
    signal.addEventListener('abort', leave, { once: true });
    void promise.then(() => {
      signal.removeEventListener('abort', leave);
      resolve();
    });
  });
}
