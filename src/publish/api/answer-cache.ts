// Finished answers as bytes with their strong ETag, kept per site until the forecast changes or an age passes a threshold.

import { createHash } from 'node:crypto';

export interface Answer {
  readonly bytes: Buffer;
  /** Strong: a digest of the bytes, which are made from nothing but forecast issue, limits, rules and what was asked. */
  readonly etag: string;
  readonly contentType: string;
  /** The version of the site's forecast that it was made from. */
  readonly version: number;
  /** Not to be served from this moment on. */
  readonly goodUntilMs: number;
}

export interface AnswerCache {
  get(key: string, version: number, nowMs: number): Answer | null;
  put(key: string, answer: Answer): void;
}

/** Keeps at most `most` answers; the longest kept goes first. */
export function createAnswerCache(most = 4000): AnswerCache {
  const answers = new Map<string, Answer>();
  return {
    get(key, version, nowMs) {
      const answer = answers.get(key);
      if (answer === undefined) return null;
      if (answer.version === version && nowMs < answer.goodUntilMs) return answer;
      answers.delete(key);
      return null;
    },
    put(key, answer) {
      if (answers.size >= most) {
        const oldest = answers.keys().next().value;
        if (oldest !== undefined) answers.delete(oldest);
      }
      answers.set(key, answer);
    },
  };
}

export function makeAnswer(text: string, contentType: string, version: number, goodUntilMs: number): Answer {
  const bytes = Buffer.from(text, 'utf8');
  const etag = `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 27)}"`;
  return { bytes, etag, contentType, version, goodUntilMs };
}

/** True where If-None-Match names the ETag (RFC 9110, 13.1.2: weak comparison, lists, `*`). */
export function matches(ifNoneMatch: string | undefined, etag: string): boolean {
  if (ifNoneMatch === undefined) return false;
  if (ifNoneMatch === etag || ifNoneMatch.trim() === '*') return true;
  return ifNoneMatch.split(',').some((tag) => tag.trim().replace(/^W\//, '') === etag);
}
