// Taps of the glance: kept on the phone first, then sent. Pressed without signal, they wait and are shown as waiting.

const RETRY_MS = 30_000;

/** By whose clock: the server's, with what has passed since it was heard, or where that is unknown the phone's own. */
function tapTime(): { at: string; note: string } {
  const now = serverNow();
  if (now === null) return { at: new Date().toISOString(), note: "time by the phone's own clock" };
  const offMin = Math.round((now - Date.now()) / MINUTE);
  const by = root.dataset['copy'] === undefined ? "the server's clock" : "the server's clock when last heard";
  const off =
    Math.abs(offMin) < 1
      ? ''
      : `; the phone's clock was ${Math.abs(offMin)} min ${offMin > 0 ? 'behind' : 'ahead'}`;
  return { at: new Date(now).toISOString(), note: `time by ${by}${off}` };
}

interface Press {
  readonly what: string;
  readonly burn: string | undefined;
  readonly label: string;
}

function tapOf({ what, burn, label }: Press, by: string): Waiting {
  const id = crypto.randomUUID();
  const site = glance().dataset['site'] ?? '';
  const base = `/v1/sites/${encodeURIComponent(site)}/burns`;
  const body = { id, tap: what, from: 'phone', ...tapTime(), ...(by === '' ? {} : { by }) };
  return {
    ...{ id, site, label, kind: what, refused: null },
    reader: document.body.dataset['reader'] ?? '',
    url: burn === undefined ? base : `${base}/${encodeURIComponent(burn)}/taps`,
    body: JSON.stringify(body),
    // The server names a burn by the tap that opened it.
    burn: burn ?? `burn-${id}`,
  };
}

function seenOf(message: string, label: string, by: string): Waiting {
  return {
    ...{ id: crypto.randomUUID(), label, kind: 'seen', burn: '', refused: null },
    site: glance().dataset['site'] ?? '',
    reader: document.body.dataset['reader'] ?? '',
    url: `/v1/messages/${encodeURIComponent(message)}/answers`,
    body: JSON.stringify({ answer: 'got-it', ...(by === '' ? {} : { by }) }),
  };
}

if (canKeep) document.addEventListener('submit', take);

function take(event: SubmitEvent): void {
  const form = event.target as HTMLFormElement;
  const button = event.submitter as HTMLButtonElement | null;
  const [what = '', burn] = (button?.value ?? '').split(' ');
  // What puts right an earlier tap goes to the server as it is.
  if (form.id !== 'taps' || button === null || what === 'undo' || what === 'move') return;
  const by = field('by')?.value.trim() ?? '';
  const label = button.textContent ?? '';
  const messages = (document.querySelector<HTMLInputElement>('[name=messages]')?.value ?? '').split(' ');
  const pressed =
    what === 'seen'
      ? messages.filter((id) => id !== '').map((id) => seenOf(id, label, by))
      : [tapOf({ what, burn, label }, by)];
  if (pressed.length === 0) return;
  // Only now: whatever fails before this, the form goes by itself.
  event.preventDefault();
  // A second press of a thumb that slipped is none.
  button.disabled = true;
  keepTaps(pressed).then(
    () => sendKept(by),
    () => sendForm(form, button.value),
  );
}

/** Nothing was kept: the form goes as it would without script. */
function sendForm(form: HTMLFormElement, value: string): void {
  const hidden = document.createElement('input');
  hidden.type = 'hidden';
  hidden.name = 'do';
  hidden.value = value;
  form.append(hidden);
  form.submit();
}

/** It is kept: whatever fails from here on, it waits and is sent once. */
async function sendKept(by: string): Promise<void> {
  await keepFact('by', by).catch(() => {});
  await showQueue();
  await sendNow().catch(showQueue);
}

async function sendNow(): Promise<void> {
  const registration = await navigator.serviceWorker?.getRegistration().catch(() => undefined);
  const { sync } = (registration ?? {}) as { sync?: { register(tag: string): Promise<void> } };
  const isDone = await sendTaps();
  if (isDone) await refresh();
  // Where the page is closed meanwhile, the browser wakes the worker when signal is back.
  else await sync?.register('pitward-taps').catch(() => {});
  await showQueue();
}

async function showQueue(): Promise<void> {
  const place = document.getElementById('queue');
  if (place === null) return;
  const words = wordsOf();
  const all = await waitingTaps().catch(() => []);
  const reader = document.body.dataset['reader'];
  const isMine = (tap: Waiting): boolean => tap.reader === reader;
  const waiting = all.filter((tap) => tap.refused === null && isMine(tap));
  const others = all.filter((tap) => tap.refused === null && !isMine(tap));
  const count = (n: number): string =>
    (n === 1 ? words['waitingOne'] : words['waiting']?.replace('{}', String(n))) ?? '';
  const lines: (string | HTMLElement)[] = [];
  if (waiting.length > 0)
    lines.push(`${count(waiting.length)}: ${waiting.map(({ label }) => label).join(', ')}.`);
  if (waiting.length > 0 && (await factOf('sign-in').catch(() => false))) lines.push(words['signIn'] ?? '');
  if (others.length > 0) lines.push(words['otherKey']?.replace('{}', count(others.length)) ?? '');
  for (const tap of all) if (tap.refused !== null) lines.push(...refusedLines(tap, words));
  place.replaceChildren(...lines.map(paragraph));
  showNextTaps(waiting);
}

function paragraph(line: string | HTMLElement): HTMLElement {
  const p = document.createElement('p');
  p.append(line);
  return p;
}

/** Stays until somebody has read it. */
function refusedLines(tap: Waiting, words: Readonly<Record<string, string>>): (string | HTMLElement)[] {
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = words['refusedSeen'] ?? '';
  button.addEventListener('click', () => void dropTap(tap.n ?? 0).then(showQueue));
  return [`${words['refused']} ${tap.label}. ${tap.refused}`, button];
}

/** What was tapped and has not been sent yet is where the burn stands, as far as this phone knows. */
function showNextTaps(waiting: readonly Waiting[]): void {
  const last = waiting.findLast(({ kind, site }) => kind !== 'seen' && site === glance().dataset['site']);
  const large = document.querySelector('.large');
  const all = document.getElementById('all-taps') as HTMLTemplateElement | null;
  if (last === undefined || large === null || all === null) return;
  // The server says what comes next: a stop is no other here.
  const next = JSON.parse(all.dataset['next'] ?? '{}') as Readonly<Record<string, readonly string[]>>;
  const buttons = (next[last.kind] ?? []).flatMap((kind) => {
    const found = all.content.querySelector<HTMLButtonElement>(`[data-kind="${kind}"]`);
    if (found === null) return [];
    const button = found.cloneNode(true) as HTMLButtonElement;
    button.value = kind === 'lit' ? 'lit' : `${kind} ${last.burn}`;
    return [button];
  });
  large.replaceChildren(...buttons);
}

async function begin(): Promise<void> {
  const by = field('by');
  if (by?.value === '') by.value = String((await factOf('by').catch(() => '')) ?? '');
  if (root.dataset['copy'] === undefined)
    await keepFact('reader', document.body.dataset['reader']).catch(() => {});
  new BroadcastChannel(CHANNEL).addEventListener('message', () => void showQueue().then(refresh));
  setInterval(reAsk, RE_ASK_MS);
  setInterval(() => void trySending(), RETRY_MS);
  listen();
  showSound();
  await stayAwake();
  await showQueue();
  await trySending();
}

async function trySending(): Promise<void> {
  const isWaiting = (await waitingTaps().catch(() => [])).some(({ refused }) => refused === null);
  if (isWaiting) await sendNow();
}

void begin();
