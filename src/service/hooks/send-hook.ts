// One try at a receiver, and what is kept of it.

import { randomUUID } from 'node:crypto';
import type { HookAnswer, HookCaller } from '#notify/hook-call.ts';
import type { HookSecret, NewAttempt, Subscription } from '#store/hooks/records.ts';
import { type HookContent, hookBody, testContent } from './hook-message.ts';

export interface SentHook {
  readonly answer: HookAnswer;
  readonly attempt: NewAttempt;
}

export interface HookSender {
  /** Null: it was called off. */
  send(subscription: Subscription, content: HookContent, signal: AbortSignal): Promise<SentHook | null>;
  test(subscription: Subscription, signal: AbortSignal): Promise<SentHook | null>;
}

export interface HookSenderOptions {
  readonly caller: HookCaller;
  /** Of CloudEvents. */
  readonly source: string;
  readonly nowMs: () => number;
  readonly steadyMs: () => number;
}

/** The newest first. */
export const liveSecrets = (secrets: readonly HookSecret[], nowMs: number): readonly HookSecret[] =>
  secrets.filter(({ untilMs }) => untilMs === null || nowMs < untilMs);

export function createHookSender({ caller, source, nowMs, steadyMs }: HookSenderOptions): HookSender {
  const send: HookSender['send'] = async ({ body, secrets }, content, signal) => {
    const [atMs, beganMs] = [nowMs(), steadyMs()];
    const signedBy = liveSecrets(secrets, atMs).map(({ secret }) => secret);
    const { url, format } = body;
    const written = hookBody(format, source, content);
    const answer = await caller.send({ url, secrets: signedBy, id: content.id, ...written }, signal);
    if (answer === null) return null;
    const { outcome, status, reason, detail } = answer;
    const tookMs = Math.max(0, Math.round(steadyMs() - beganMs));
    const attempt = {
      webhookId: content.id,
      type: content.type,
      atMs,
      tookMs,
      outcome,
      status,
      reason,
      detail,
    };
    return { answer, attempt };
  };
  return {
    send,
    test: (subscription, signal) =>
      send(subscription, testContent(subscription.id, randomUUID(), nowMs()), signal),
  };
}
