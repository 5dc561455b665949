// The glance, live: asks for itself anew at every change that the stream tells, or every half minute where there is none;
// keeps the screen awake while a pit burns, and sounds when it gets worse.

const RE_ASK_MS = 30_000;
const RANK: Readonly<Record<string, number>> = { go: 0, hold: 1, unsaid: 1, stop: 2 };

const glance = (): HTMLElement => document.getElementById('glance') ?? document.body;
const wordsOf = (): Readonly<Record<string, string>> => JSON.parse(glance().dataset['words'] ?? '{}');

let asking: Promise<void> | null = null;
/** Asked for while it was being asked: what came may be older than that. */
let isWanted = false;

function refresh(): Promise<void> {
  isWanted = asking !== null;
  asking ??= askAnew().finally(() => {
    asking = null;
    if (isWanted) void refresh();
  });
  return asking;
}

async function askAnew(): Promise<void> {
  const asked = clocks();
  try {
    const response = await fetch(location.href, {
      headers: { accept: 'text/html' },
      cache: 'no-store',
      signal: AbortSignal.timeout(15_000),
    });
    if (!response.ok) throw new Error(String(response.status));
    const text = await response.text();
    // A page of signing in has no glance.
    const next = new DOMParser().parseFromString(text, 'text/html');
    if (next.getElementById('glance') === null) throw new Error('no glance');
    swap(next, asked);
    showLost(false);
    void sendTaps().catch(() => {});
  } catch {
    showLost(true);
  }
  await showQueue();
}

/** What the server wrote takes the place of what it wrote before; what a person is doing meanwhile stays. */
function swap(next: Document, asked: ReturnType<typeof clocks>): void {
  const before = glance().dataset['mark'] ?? '';
  const name = field('by')?.value;
  const clock = field('at')?.value;
  const isOpen = document.querySelector('details')?.open ?? false;
  const at = document.activeElement;
  const focused = at instanceof HTMLButtonElement ? `button[value="${at.value}"]` : at?.id && `#${at.id}`;
  document.querySelector('main')?.replaceChildren(...(next.querySelector('main')?.childNodes ?? []));
  document.title = next.title;
  Object.assign(document.body.dataset, { ...next.body.dataset });
  root.classList.remove('copy', 'void');
  delete root.dataset['copy'];
  heardAt(Number(next.body.dataset['now']), asked);
  void keepFact('reader', next.body.dataset['reader']).catch(() => {});
  const [by, time, more] = [field('by'), field('at'), document.querySelector('details')];
  if (by && name !== undefined) by.value = name;
  if (time && clock !== undefined) time.value = clock;
  if (more) more.open = isOpen;
  if (focused) document.querySelector<HTMLElement>(focused)?.focus();
  showAges();
  showSound();
  void stayAwake();
  const after = glance().dataset['mark'] ?? '';
  if ((RANK[after] ?? 1) > (RANK[before] ?? 1)) sound();
}

const field = (id: string): HTMLInputElement | null => document.getElementById(id) as HTMLInputElement | null;

function showLost(isLost: boolean): void {
  const place = document.getElementById('lost');
  const now = serverNow();
  const old = now === null ? '' : lengthText(now - Number(document.body.dataset['now']));
  if (place)
    place.textContent = isLost
      ? `${wordsOf()['lost']} ${wordsOf()['pageOld']?.replace('{}', old || '?')}.`
      : '';
}

// The stream, and asking where there is none.

let stream: EventSource | null = null;
let heardStreamMs = Number.NEGATIVE_INFINITY;

function listen(): void {
  stream?.close();
  stream = new EventSource(`/v1/sites/${encodeURIComponent(glance().dataset['site'] ?? '')}/now/stream`);
  const hear = (): void => {
    heardStreamMs = performance.now();
    void refresh();
  };
  stream.addEventListener('now', hear);
  stream.addEventListener('fault', hear);
}

/** The stream tells once a minute that it still holds: silent for longer, it is none. */
function reAsk(): void {
  if (document.visibilityState !== 'visible') return;
  if (performance.now() - heardStreamMs < 75_000) return;
  void refresh();
  if (stream === null || stream.readyState === EventSource.CLOSED) listen();
}

document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'visible') {
    listen();
    void refresh();
    void stayAwake();
  } else {
    stream?.close();
    stream = null;
  }
});
addEventListener('online', () => {
  listen();
  void refresh();
});

// The screen, and the sound.

let awake: WakeLockSentinel | null = null;

async function stayAwake(): Promise<void> {
  const burns = glance().dataset['burning'] === '1' && document.visibilityState === 'visible';
  if (!burns) {
    await awake?.release();
    awake = null;
  } else if (awake === null || awake.released) {
    awake = await navigator.wakeLock?.request('screen').catch(() => null);
  }
}

let audio: AudioContext | null = null;

function sound(): void {
  if (audio === null) return;
  for (const [i, pitch] of [880, 660, 880, 660].entries()) {
    const tone = audio.createOscillator();
    tone.frequency.value = pitch;
    tone.connect(audio.destination);
    tone.start(audio.currentTime + i * 0.35);
    tone.stop(audio.currentTime + i * 0.35 + 0.3);
  }
}

function showSound(): void {
  const button = document.getElementById('sound');
  if (button === null) return;
  if (button.parentElement) button.parentElement.hidden = false;
  button.setAttribute('aria-pressed', String(audio !== null));
  button.textContent = wordsOf()[audio === null ? 'sound' : 'soundOn'] ?? '';
}

document.addEventListener('click', (event) => {
  if ((event.target as Element).id !== 'sound') return;
  void audio?.close();
  // Made at a press, or no browser lets it sound.
  audio = audio === null ? new AudioContext() : null;
  showSound();
  if (audio) sound();
});
