// One GET with patience: waits its turn, keeps away from a host that refused us or is down, and tries again.

import { ServiceError } from '#errors.ts';
import type { Asked, Permit } from './http-breaker.ts';
import type { Ask, HttpAnswer, Parts } from './http-parts.ts';
import { safeUrl } from './http-problem.ts';
import { isRefusal, retryWaitMs } from './http-retry.ts';
import { type Outcome, tooLate, tryOnce } from './http-try.ts';

/** Tries until an answer comes, the fault is one that lasts, or the deadline leaves no room for another wait. */
export async function getPatiently(parts: Parts, url: URL, ask: Ask): Promise<HttpAnswer> {
  const { options, gate, breaker } = parts;
  const asked: Asked = { host: url.host, kind: ask.kind, address: url.href };
  for (let tries = 1; ; tries += 1) {
    await waitOutPause(parts, url, ask);
    const permit = await breaker.admit(asked, ask.signal);
    const outcome = await inItsTurn(parts, url, ask, permit).finally(permit.end);
    if ('answer' in outcome) return outcome.answer;
    ask.signal.throwIfAborted();
    const { failure, fault } = outcome;
    const refused = isRefusal(failure.status);
    const pauseMs = refused ? gate.refused(url.host, options.nowMs(), failure.retryAfterMs) : null;
    const waitMs = pauseMs ?? retryWaitMs(failure, tries, options.random);
    const againAtMs = breaker.refusedUntilMs(asked, options.nowMs() + (waitMs ?? 0));
    const inTime = waitMs !== null && againAtMs === null && options.nowMs() + waitMs < ask.deadlineMs;
    const next = inTime ? `trying again in ${secondsText(waitMs)}` : givenUp(tries);
    options.log.warn({ ...fault.facts, tries, waitMs: inTime ? waitMs : null }, `${fault.message}; ${next}`);
    if (!inTime) throw againAtMs === null ? fault : withFacts(fault, { againAtMs });
    if (!refused) await rest(parts, waitMs, ask.signal);
  }
}

/** One try in one of the host's places, at the host's pace; not sent where the host is found down meanwhile. */
function inItsTurn({ gate, pacer, ...parts }: Parts, url: URL, ask: Ask, permit: Permit): Promise<Outcome> {
  return gate.run(url.host, ask.signal, async () => {
    permit.check();
    const late = tooLate(parts, url, ask);
    if (late) return late;
    await pacer?.(url.host, ask.signal);
    permit.check();
    return await tryOnce({ ...parts, gate }, url, ask, permit);
  });
}

const withFacts = ({ code, message, cause, retryable, facts }: ServiceError, more: object): ServiceError =>
  new ServiceError(code, message, { cause, retryable, facts: { ...facts, ...more } });

const secondsText = (ms: number): string => (ms < 1_000 ? 'under a second' : `${Math.round(ms / 1_000)} s`);

const givenUp = (tries: number): string => `given up after ${tries === 1 ? 'one try' : `${tries} tries`}`;

/** Waits until a host that refused us may be asked again; throws where that is past the deadline. */
async function waitOutPause({ options, gate }: Parts, url: URL, ask: Ask): Promise<void> {
  for (;;) {
    const untilMs = gate.pausedUntilMs(url.host);
    const nowMs = options.nowMs();
    if (untilMs <= nowMs) return;
    if (untilMs >= ask.deadlineMs) {
      throw new ServiceError('source_refused', `${url.host} refused us and is left alone for now`, {
        retryable: true,
        facts: { url: safeUrl(url), leftAloneMs: untilMs - nowMs, againAtMs: untilMs },
      });
    }
    await rest({ options }, untilMs - nowMs, ask.signal);
  }
}

async function rest({ options }: Pick<Parts, 'options'>, ms: number, signal: AbortSignal): Promise<void> {
  try {
    await options.sleep(ms, signal);
  } catch (fault) {
    // Timers tell of an abort in words of their own; the reason given is the one to hear.
    signal.throwIfAborted();
    throw fault;
  }
  signal.throwIfAborted();
}
