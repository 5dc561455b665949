// Finished answers as bytes with their strong ETag, kept per site until the forecast changes or an age passes a threshold.

import { createHash } from 'node:crypto';

export interface Answer {
  readonly bytes: Buffer;
  /**
   * Strong: a digest of the bytes. They are made once for a forecast issue, alerts, limits, rules and question, and stay
   * while these stay and no age passes a threshold.
   */
  readonly etag: string;
  readonly contentType: string;
  /** The version of the site's forecast that it was made from. */
  readonly version: number;
  /** The moment as of which it was judged: not to be served before, where a clock was set back. */
  readonly madeAtMs: number;
  /** Not to be served from this moment on. */
  readonly goodUntilMs: number;
}

export interface AnswerCache {
  get(key: string, version: number, nowMs: number): Answer | null;
  put(key: string, answer: Answer): void;
}

/** Addresses are the same in every organisation: the site's key tells them apart. */
export const answerKeyOf = (siteKey: string, url: string): string => `${siteKey} ${url}`;

const MEBIBYTE = 1_048_576;

/** Keeps answers of at most `mostBytes` in all; the longest kept go first. */
export function createAnswerCache(mostBytes = 64 * MEBIBYTE): AnswerCache {
  const answers = new Map<string, Answer>();
  let heldBytes = 0;
  const drop = (key: string): void => {
    heldBytes -= answers.get(key)?.bytes.byteLength ?? 0;
    answers.delete(key);
  };
  return {
    get(key, version, nowMs) {
      const answer = answers.get(key);
      if (answer === undefined) return null;
      const { madeAtMs, goodUntilMs } = answer;
      if (answer.version === version && madeAtMs <= nowMs && nowMs < goodUntilMs) return answer;
      drop(key);
      return null;
    },
    put(key, answer) {
      drop(key);
      answers.set(key, answer);
      heldBytes += answer.bytes.byteLength;
      for (const oldest of answers.keys()) {
        if (heldBytes <= mostBytes) break;
        drop(oldest);
      }
    },
  };
}

/** Without `use` an answer is for this once. */
export function makeAnswer(
  text: string,
  contentType: string,
  use: Pick<Answer, 'version' | 'madeAtMs' | 'goodUntilMs'> = ONCE,
): Answer {
  const bytes = Buffer.from(text, 'utf8');
  const etag = `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 27)}"`;
  return { bytes, etag, contentType, ...use };
}

const ONCE = { version: 0, madeAtMs: 0, goodUntilMs: 0 };

/** True where If-None-Match names the ETag (RFC 9110, 13.1.2: weak comparison, lists, `*`). */
export function matches(ifNoneMatch: string | undefined, etag: string): boolean {
  if (ifNoneMatch === undefined) return false;
  if (ifNoneMatch === etag || ifNoneMatch.trim() === '*') return true;
  return ifNoneMatch.split(',').some((tag) => tag.trim().replace(/^W\//, '') === etag);
}
