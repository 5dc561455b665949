// A browser's window in which the scripts of the pages run as they are served: as much of it as they ask for, with clocks that
// stand. No test in here.

import { createContext, Script } from 'node:vm';
import { makePhoneFiles } from '#publish/served/phone-files.ts';
import { type InventedDatabase, inventDatabase } from './invented-database.ts';

const files = makePhoneFiles('1.2.3');
const scriptAt = (address: string): string => files.scripts.get(address.slice('/s/'.length)) ?? '';
const SCRIPTS = { day: scriptAt(files.day), glance: scriptAt(files.glance) };

export const NOON_MS = Date.UTC(2026, 3, 14, 16);
const MINUTE = 60_000;

export interface Sent {
  readonly url: string;
  readonly init: { readonly method?: string; readonly body?: string; readonly cache?: string };
}

export interface Press {
  readonly isPrevented: boolean;
  /** How often the script sent the form itself. */
  readonly formSent: number;
}

export interface InventedWindow {
  readonly database: InventedDatabase;
  /** What the scripts asked the server. */
  readonly sent: Sent[];
  /** Its go is withdrawn. */
  readonly isVoid: () => boolean;
  /** What stands on the page in the place of this name. */
  readonly shown: (id: string) => string;
  readonly press: (value: string) => Press;
  /** Until nothing is left to do but to wait for a clock. */
  readonly settled: () => Promise<void>;
  /** Both clocks go on. */
  readonly pass: (ms: number) => void;
  readonly showAgain: () => void;
}

export interface WindowIs {
  readonly isSecure?: boolean;
  /** A worker sees to this page. */
  readonly hasWorker?: boolean;
  readonly navigation?: {
    readonly type?: string;
    readonly transferSize?: number;
    readonly fetchStart?: number;
  };
  /** What the steady clock says when the script begins. */
  readonly openMs?: number;
  readonly copyMs?: number;
  /** What this browser does not have. */
  readonly without?: 'locks' | 'randomUUID' | 'indexedDB';
  readonly database?: InventedDatabase;
  readonly answer?: (sent: Sent, pass: (ms: number) => void) => { status: number; body?: string };
}

class Place {
  dataset: Record<string, string> = {};
  textContent = '';
  value = '';
  hidden = false;
  disabled = false;
  id = '';
  parentElement = null;
  children: Place[] = [];
  readonly classes = new Set<string>();
  readonly classList = {
    add: (name: string) => void this.classes.add(name),
    remove: (...names: string[]) => {
      for (const name of names) this.classes.delete(name);
    },
  };
  append(child: Place | string): void {
    if (typeof child === 'string') this.textContent += child;
    else this.children.push(child);
  }
  replaceChildren(...children: Place[]): void {
    this.children = children;
  }
  setAttribute(): void {}
  addEventListener(): void {}
}

/** A page written at noon whose go is void ten minutes later, and the script of its kind. */
export function openWindow(kind: 'day' | 'glance', is: WindowIs = {}): InventedWindow {
  const database = is.database ?? inventDatabase();
  const listeners = new Map<string, ((event: unknown) => void)[]>();
  const listen = (name: string, listener: (event: unknown) => void): void => {
    listeners.set(name, [...(listeners.get(name) ?? []), listener]);
  };
  const tell = (name: string, event: unknown): void => {
    for (const hear of listeners.get(name) ?? []) hear(event);
  };
  let passedMs = is.openMs ?? 1000;
  const pass = (ms: number): void => {
    passedMs += ms;
  };
  const sent: Sent[] = [];
  const [root, body] = [new Place(), new Place()];
  if (is.copyMs !== undefined) root.dataset['copy'] = String(is.copyMs);
  Object.assign(body.dataset, {
    now: String(NOON_MS),
    void: String(NOON_MS + 10 * MINUTE),
    reader: 'reader-a',
  });
  const places = new Map(['glance', 'queue', 'lost', 'by', 'sound'].map((id) => [id, new Place()]));
  const words = { waitingOne: '1 waits', waiting: '{} wait', lost: 'no word', pageOld: '{} old' };
  Object.assign(places.get('glance')?.dataset ?? {}, { site: 'heron-bend-2', words: JSON.stringify(words) });
  const messages = Object.assign(new Place(), { value: 'message-1 message-2' });
  const document = {
    documentElement: root,
    body,
    scripts: [],
    title: '',
    visibilityState: 'visible',
    activeElement: null,
    addEventListener: listen,
    createElement: () => new Place(),
    getElementById: (id: string) => places.get(id) ?? null,
    querySelector: (asked: string) => (asked === '[name=messages]' ? messages : null),
    querySelectorAll: () => [],
  };
  const answer: NonNullable<WindowIs['answer']> = is.answer ?? (() => ({ status: 503 }));
  const fetch = async (url: string, init: Sent['init'] = {}) => {
    const one = { url, init };
    sent.push(one);
    const { status, body: text = '' } = answer(one, pass);
    return { status, ok: status < 300, type: 'basic', text: async () => text, json: async () => ({}) };
  };
  const locks = { request: (_name: string, work: () => Promise<unknown>) => work() };
  const worker = {
    controller: is.hasWorker ? {} : null,
    addEventListener: () => {},
    register: async () => ({ update: async () => {} }),
    getRegistration: async () => undefined,
  };
  const isSecure = is.isSecure ?? true;
  const has = (what: string): boolean => is.without !== what;
  let ids = 0;
  const own = class extends Date {
    static override now = (): number => NOON_MS + passedMs;
  };
  const window = {
    ...{ document, fetch, JSON, isSecureContext: isSecure, addEventListener: listen },
    ...{
      location: { href: 'https://pits.example/sites/heron-bend-2/now' },
      AbortSignal: { timeout: () => undefined },
    },
    Date: own,
    performance: {
      now: () => passedMs,
      getEntriesByType: () => [
        { type: 'navigate', transferSize: 5000, fetchStart: 900, responseStart: 1000, ...is.navigation },
      ],
    },
    // Only secure contexts have them (W3C Secure Contexts; Web Locks, Web Cryptography, Service Workers).
    navigator: {
      ...(isSecure && has('locks') ? { locks } : {}),
      ...(isSecure ? { serviceWorker: worker } : {}),
    },
    crypto: isSecure && has('randomUUID') ? { randomUUID: () => `id-${++ids}` } : {},
    ...(has('indexedDB') ? { indexedDB: database.factory } : {}),
    BroadcastChannel: class {
      addEventListener(): void {}
      postMessage(): void {}
      close(): void {}
    },
    EventSource: class {
      addEventListener(): void {}
      close(): void {}
    },
    DOMParser: class {
      parseFromString(text: string) {
        const next = new Place();
        next.dataset = { ...body.dataset, now: text };
        return { ...document, body: next, querySelector: () => null };
      }
    },
    HTMLButtonElement: class {},
    setInterval: () => 0,
  };
  new Script(SCRIPTS[kind]).runInContext(createContext(window));
  return {
    ...{ database, sent, pass },
    isVoid: () => root.classes.has('void'),
    shown: (id) => [places.get(id), ...(places.get(id)?.children ?? [])].map((p) => p?.textContent).join(''),
    showAgain: () => tell('visibilitychange', {}),
    settled: async () => {
      // Everything in here is done in microtasks: all of them come before the next turn.
      await new Promise(setImmediate);
    },
    press: (value) => {
      const seen = { isPrevented: false, formSent: 0 };
      const submit = (): void => {
        seen.formSent += 1;
      };
      const preventDefault = (): void => {
        seen.isPrevented = true;
      };
      const submitter = Object.assign(new Place(), { value, textContent: value });
      tell('submit', {
        target: Object.assign(new Place(), { id: 'taps', submit }),
        submitter,
        preventDefault,
      });
      return seen;
    },
  };
}
