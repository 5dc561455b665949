// A phone on which the worker runs as it is served: its caches, its database and a line whose answers a test lets through, with
// a clock that stands. No test in here.

import { createContext, Script } from 'node:vm';
import { makePhoneFiles } from '#publish/served/phone-files.ts';
import { type InventedDatabase, inventDatabase } from './invented-database.ts';

const files = makePhoneFiles('1.2.3');
export const HOST = 'https://pits.example';
export const NOON_MS = Date.UTC(2026, 3, 14, 16);

export interface Asked {
  readonly url: string;
  readonly method?: string;
  readonly mode?: string;
}
interface Request extends Required<Asked> {
  readonly headers: Headers;
}
export type Line = (request: Request, init: RequestInit | undefined) => Promise<Response> | Response;

export interface InventedWorker {
  readonly database: InventedDatabase;
  /** What is there to be shown without signal. */
  readonly kept: () => string[];
  /** The line from now on. */
  line: Line;
  /** Null: left to the browser. `done` comes when the worker has done all that belongs to it. */
  readonly ask: (asked: Asked) => { answer: Promise<Response> | null; done: () => Promise<void> };
  readonly pass: (ms: number) => void;
  /** Whoever waits for an answer has waited long enough. */
  readonly loseHope: () => void;
}

/** A page as the service writes it: for this reader at this time. */
export const pageFor = (reader: string | null, headers: Record<string, string> = {}): Response =>
  new Response(
    `<html lang="en"><body data-now="${NOON_MS}" data-void="${NOON_MS + 600_000}"${reader === null ? '' : ` data-reader="${reader}"`} data-old="{} old" data-unknown="?">of ${reader} <b class="copy-age"></b></body></html>`,
    { headers: { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-store', ...headers } },
  );

export const noSignal: Line = () => Promise.reject(new TypeError('no signal'));

function inventCaches() {
  const all = new Map<string, Map<string, Response>>();
  const open = async (name: string) => {
    const entries = all.get(name) ?? new Map<string, Response>();
    all.set(name, entries);
    const urlOf = (asked: string | { url: string }): string =>
      typeof asked === 'string' ? asked : asked.url;
    return {
      keys: async () => [...entries.keys()].map((url) => ({ url })),
      match: async (asked: string | { url: string }) => entries.get(urlOf(asked))?.clone(),
      put: async (asked: string | { url: string }, response: Response) =>
        void entries.set(urlOf(asked), response),
      delete: async (asked: string | { url: string }) => entries.delete(urlOf(asked)),
    };
  };
  const names = { keys: async () => [...all.keys()], delete: async (name: string) => all.delete(name) };
  return { caches: { open, ...names }, urls: () => [...all.values()].flatMap((one) => [...one.keys()]) };
}

export function startWorker(): InventedWorker {
  const database = inventDatabase();
  const { caches, urls } = inventCaches();
  const hear = new Map<string, (event: unknown) => void>();
  const hopes: (() => void)[] = [];
  let passedMs = 0;
  const own = class extends Date {
    static override now = (): number => NOON_MS + passedMs;
  };
  const self = {
    addEventListener: (name: string, listener: (event: unknown) => void) => void hear.set(name, listener),
    navigator: { language: 'en-US' },
  };
  const scope = {
    ...{ self, caches, URL, Headers, Response, indexedDB: database.factory, location: new URL(HOST) },
    ...{ isSecureContext: true, crypto: { randomUUID: () => 'id' }, AbortSignal },
    Date: own,
    navigator: { locks: { request: (_name: string, work: () => Promise<unknown>) => work() } },
    fetch: async (request: Request, init?: RequestInit) => worker.line(request, init),
    setTimeout: (work: () => void) => void hopes.push(work),
    BroadcastChannel: class {
      postMessage(): void {}
      close(): void {}
    },
  };
  new Script(files.worker).runInContext(createContext(scope));
  const worker: InventedWorker = {
    database,
    line: noSignal,
    kept: () => urls().map((url) => url.slice(HOST.length)),
    pass: (ms) => {
      passedMs += ms;
    },
    loseHope: () => {
      for (const give of hopes.splice(0)) give();
    },
    ask: ({ url, method = 'GET', mode = 'navigate' }) => {
      const promises: Promise<unknown>[] = [];
      let answer: Promise<Response> | null = null;
      const request = { url: HOST + url, method, mode, headers: new Headers({ accept: 'text/html' }) };
      hear.get('fetch')?.({
        request,
        respondWith: (given: Promise<Response>) => {
          answer = Promise.resolve(given);
          promises.push(answer);
        },
        waitUntil: (given: Promise<unknown>) => void promises.push(given),
      });
      const done = async (): Promise<void> => {
        // More may be said to belong to it while it is done.
        for (let n = -1; n < promises.length; ) {
          n = promises.length;
          await Promise.allSettled(promises);
        }
      };
      return { answer, done };
    },
  };
  return worker;
}
