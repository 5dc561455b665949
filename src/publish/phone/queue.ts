// Taps that wait for signal, in the phone's own database. Each has its time and its id from the moment at which it was
// tapped; it is taken out when the server has said that it has it, and sent again with the same id until then.

interface Waiting {
  n?: number;
  /** The tap's own: the server counts it once. */
  id: string;
  site: string;
  url: string;
  body: string;
  /** What was pressed, in the words of the page. */
  label: string;
  /** For the next tap before this one was sent. */
  kind: string;
  burn: string;
  /** Whose page it was tapped on. */
  reader: string;
  /** Why the server did not take it; null: not yet sent. */
  refused: string | null;
}

const DATABASE = 'pitward';
const CHANNEL = 'pitward';
const SEND_WITHIN_MS = 15_000;
/** Over plain http there are neither locks nor ids: nothing is kept there, and forms go by themselves. */
const canKeep =
  isSecureContext &&
  navigator.locks !== undefined &&
  crypto.randomUUID !== undefined &&
  typeof indexedDB !== 'undefined';

function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function opened(): Promise<IDBDatabase> {
  const request = indexedDB.open(DATABASE, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore('taps', { keyPath: 'n', autoIncrement: true });
    request.result.createObjectStore('facts');
  };
  return asked(request);
}

/** Resolves when it is written for good. */
async function within<T>(
  store: 'taps' | 'facts',
  mode: IDBTransactionMode,
  work: (taps: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const database = await opened();
  try {
    const transaction = database.transaction(store, mode, { durability: 'strict' });
    const done = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error);
    });
    const [result] = await Promise.all([asked(work(transaction.objectStore(store))), done]);
    return result;
  } finally {
    database.close();
  }
}

const waitingTaps = (): Promise<Waiting[]> => within('taps', 'readonly', (taps) => taps.getAll());
const keepTap = (tap: Waiting): Promise<IDBValidKey> => within('taps', 'readwrite', (taps) => taps.put(tap));
/** All of them or none; there is one at least. */
const keepTaps = (pressed: readonly Waiting[]): Promise<IDBValidKey> =>
  within('taps', 'readwrite', (taps) => {
    const puts = pressed.map((tap) => taps.put(tap));
    return puts.at(-1) as IDBRequest<IDBValidKey>;
  });
const dropTap = (n: number): Promise<undefined> => within('taps', 'readwrite', (taps) => taps.delete(n));
const factOf = (name: string): Promise<unknown> => within('facts', 'readonly', (facts) => facts.get(name));
const keepFact = (name: string, value: unknown): Promise<IDBValidKey> =>
  within('facts', 'readwrite', (facts) => facts.put(value, name));

function tellPages(): void {
  const channel = new BroadcastChannel(CHANNEL);
  channel.postMessage('taps');
  channel.close();
}

/** gone: taken, or refused for good. later: no signal, or the server is not able. sign-in: it asks who we are. */
async function sendOne(tap: Waiting): Promise<'gone' | 'later' | 'sign-in'> {
  let response: Response;
  try {
    response = await fetch(tap.url, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        'idempotency-key': tap.id,
        'x-pitward-reader': tap.reader,
      },
      body: tap.body,
      redirect: 'manual',
      signal: AbortSignal.timeout(SEND_WITHIN_MS),
    });
  } catch {
    return 'later';
  }
  const { status, type } = response;
  if (status === 401 || type === 'opaqueredirect') return 'sign-in';
  if (status === 408 || status === 429 || status >= 500) return 'later';
  if (response.ok) await dropTap(tap.n ?? 0);
  else {
    const problem = (await response.json().catch(() => ({}))) as { detail?: string };
    await keepTap({ ...tap, refused: problem.detail ?? String(status) });
  }
  return 'gone';
}

/** In the order in which they were tapped, by one page or worker at a time. True where nothing waits any more. */
async function sendTaps(): Promise<boolean> {
  if (!canKeep) return true;
  return navigator.locks.request('pitward-send', async () => {
    const reader = await factOf('reader');
    let hasSent = false;
    let outcome = 'gone';
    for (const tap of await waitingTaps()) {
      // What was tapped with another key waits for that one.
      if (tap.refused !== null || tap.reader !== reader) continue;
      outcome = await sendOne(tap);
      if (outcome !== 'gone') break;
      hasSent = true;
    }
    await keepFact('sign-in', outcome === 'sign-in');
    if (hasSent || outcome === 'sign-in') tellPages();
    return outcome === 'gone';
  });
}
