// The life of a session with an SMPP gateway: bound, checked, and when it dies made anew. The package tells nobody that a
// link is dead and cannot bind again on the same session, so all of that is done here.

import { isIP } from 'node:net';
import type { Pdu, Session } from 'smpp';
import { backoffMs } from './backoff.ts';
import type { ChannelDeps, ChannelState } from './channel.ts';
import { connectSmpp } from './smpp-connect.ts';
import { takeLeave } from './smpp-leave.ts';
import { isBindRefused, SMPP_STATUS } from './smpp-status.ts';
import { notSent, type Submitted } from './smpp-submitted.ts';
import { trusted } from './trusted.ts';

export interface SmppSessionSettings {
  readonly host: string;
  readonly port: number;
  readonly tls: boolean;
  readonly systemId: string;
  readonly systemType: string;
  /** From the first step until bound. */
  readonly connectMs: number;
  /** Between two checks of the link. */
  readonly linkCheckMs: number;
  /** So many unanswered checks and texts in a row, and the link counts as dead. */
  readonly mostMisses: number;
  /** Texts under way at the same time. */
  readonly window: number;
  readonly reconnectLeastMs: number;
  readonly reconnectMostMs: number;
}

interface Text {
  readonly fields: Readonly<Record<string, unknown>>;
  readonly settle: (made: Submitted) => void;
}

interface Link {
  readonly session: Session;
  readonly underWay: Set<Text>;
  bound: boolean;
  misses: number;
  /** The answer to the last check has not come. */
  isOwed: boolean;
  stopTimer: () => void;
}

export interface Inbox {
  /** True where it is kept, so that the gateway may forget it. `link`: the same object for all of one link. */
  take(pdu: Pdu, link: object): Promise<boolean>;
  /** Asked as a check of the link goes out; what it gives is called when that is answered. */
  onceAnswered(link: object): () => void;
}
type SessionDeps = Pick<ChannelDeps, 'clock' | 'random' | 'trust'>;

export class SmppSession {
  readonly #settings: SmppSessionSettings;
  readonly #password: string;
  readonly #inbox: Inbox;
  readonly #deps: SessionDeps;
  readonly #queue = new Set<Text>();
  #link: Link | null = null;
  #attempt = 0;
  #stopReconnect = () => undefined as unknown;
  #whenIdle: (() => void) | null = null;
  #state: ChannelState;

  constructor(settings: SmppSessionSettings, password: string, inbox: Inbox, deps: SessionDeps) {
    this.#settings = settings;
    this.#password = password;
    this.#inbox = inbox;
    this.#deps = deps;
    this.#state = { standing: 'connecting', sinceMs: deps.clock.nowMs(), detail: null };
    this.#connect();
  }

  state(): ChannelState {
    return this.#state;
  }

  /** Settles when it is answered, when the link dies, or when `signal` ends the waiting. */
  submit(fields: Readonly<Record<string, unknown>>, signal: AbortSignal): Promise<Submitted> {
    const { standing, detail } = this.#state;
    if (standing === 'closed') return Promise.resolve(notSent('closed', 'the channel is closed'));
    if (standing === 'broken') return Promise.resolve(notSent('auth', detail ?? 'refused'));
    if (signal.aborted) return Promise.resolve(notSent('called-off', 'called off'));
    return new Promise((resolve) => {
      const text: Text = {
        fields,
        settle: (made) => {
          signal.removeEventListener('abort', giveUp);
          resolve(made);
          this.#pump();
        },
      };
      const giveUp = () => this.#giveUp(text);
      signal.addEventListener('abort', giveUp, { once: true });
      this.#queue.add(text);
      this.#pump();
    });
  }

  /** Waits for the texts that are under way, then takes its leave. */
  async close(): Promise<void> {
    if (this.#state.standing === 'closed') return;
    this.#become('closed', null);
    this.#stopReconnect();
    for (const text of [...this.#queue]) {
      this.#queue.delete(text);
      text.settle(notSent('closed', 'the channel is closed'));
    }
    const link = this.#link;
    if (link === null) return;
    await new Promise<void>((resolve) => {
      this.#whenIdle = resolve;
      this.#pump();
    });
    link.stopTimer();
    if (link.bound) await takeLeave(link.session, this.#deps.clock);
    this.#drop(link, 'closed');
  }

  #connect(): void {
    const { host, port, tls, connectMs } = this.#settings;
    const { clock, trust } = this.#deps;
    // An address has no name to be told to the other side.
    const named = isIP(host) === 0 ? { servername: host } : {};
    const session = connectSmpp({ host, port, ...(tls ? { tls: true, ...named, ...trusted(trust) } : {}) });
    const link: Link = {
      session,
      underWay: new Set(),
      bound: false,
      misses: 0,
      isOwed: false,
      stopTimer: () => undefined,
    };
    this.#link = link;
    link.stopTimer = clock.after(connectMs, () => this.#drop(link, 'not bound in time'));
    session.on('error', () => this.#drop(link, 'the connection failed'));
    session.on('close', () => this.#drop(link, 'the connection was closed'));
    session.on('pdu', (pdu: Pdu) => this.#received(link, pdu));
    session.on(tls ? 'secureConnect' : 'connect', () => this.#bind(link));
  }

  #bind(link: Link): void {
    const { systemId, systemType } = this.#settings;
    const fields = {
      system_id: systemId,
      password: this.#password,
      system_type: systemType,
      interface_version: 0x34,
    };
    link.session.bind_transceiver(fields, ({ command_status: status }) => {
      if (this.#link !== link) return;
      if (status === SMPP_STATUS.ok) {
        link.bound = true;
        link.stopTimer();
        this.#become('ready', null);
        this.#checkLater(link);
        this.#pump();
        return;
      }
      const detail = `bind answered with status 0x${status.toString(16).padStart(2, '0')}`;
      if (isBindRefused(status)) this.#refused(detail);
      this.#drop(link, detail);
    });
  }

  /** Wrong credentials do not mend themselves: what waits goes another way at once. It is still tried again. */
  #refused(detail: string): void {
    this.#become('broken', detail);
    for (const text of [...this.#queue]) {
      this.#queue.delete(text);
      text.settle(notSent('auth', detail));
    }
  }

  #checkLater(link: Link): void {
    link.stopTimer = this.#deps.clock.after(this.#settings.linkCheckMs, () => {
      if (link.isOwed && this.#missed(link)) return;
      link.isOwed = true;
      const answered = this.#inbox.onceAnswered(link);
      link.session.enquire_link({}, () => {
        answered();
        link.isOwed = false;
        this.#attempt = 0;
      });
      this.#checkLater(link);
    });
  }

  /** True where the link is given up for it. */
  #missed(link: Link): boolean {
    link.misses += 1;
    if (link.misses < this.#settings.mostMisses) return false;
    this.#drop(link, `${link.misses} unanswered in a row`);
    return true;
  }

  #received(link: Link, pdu: Pdu): void {
    link.misses = 0;
    if (pdu.isResponse()) return;
    const answer = (fields: Readonly<Record<string, unknown>> = {}) =>
      link.session.send(pdu.response(fields));
    if (pdu.command === 'enquire_link') answer();
    else if (pdu.command === 'unbind') {
      answer();
      this.#drop(link, 'the gateway took its leave');
    } else if (pdu.command === 'deliver_sm') {
      this.#inbox.take(pdu, link).then(
        (isKept) => answer(isKept ? {} : { command_status: SMPP_STATUS.temporary }),
        () => answer({ command_status: SMPP_STATUS.temporary }),
      );
    } else if (pdu.command === 'unknown') answer();
  }

  #pump(): void {
    const link = this.#link;
    if (link?.bound) {
      for (const text of [...this.#queue]) {
        if (link.underWay.size >= this.#settings.window) break;
        this.#queue.delete(text);
        this.#transmit(link, text);
      }
    }
    if (this.#whenIdle !== null && (link === null || link.underWay.size === 0)) this.#whenIdle();
  }

  #transmit(link: Link, text: Text): void {
    link.underWay.add(text);
    const answered = (pdu: Pdu) => {
      if (!link.underWay.delete(text)) return;
      const id = pdu['message_id'];
      const messageId = typeof id === 'string' && id !== '' ? id : null;
      this.#attempt = 0;
      text.settle({ kind: 'answered', status: pdu.command_status, messageId });
    };
    if (link.session.submit_sm(text.fields, answered)) return;
    link.underWay.delete(text);
    text.settle(notSent('unreachable', 'the link cannot be written to'));
  }

  #giveUp(text: Text): void {
    if (this.#queue.delete(text)) {
      text.settle(notSent('unreachable', 'no link in time'));
      return;
    }
    const link = this.#link;
    if (!link?.underWay.delete(text)) return;
    text.settle({ kind: 'unanswered', reason: 'timeout', detail: 'no answer in time' });
    this.#missed(link);
  }

  /** Ends a link, once, and sees to the next. What was under way on it may have arrived. */
  #drop(link: Link, detail: string): void {
    if (this.#link !== link) return;
    this.#link = null;
    link.stopTimer();
    link.session.destroy();
    const isOver = this.#state.standing === 'closed';
    if (this.#state.standing === 'ready') this.#become('connecting', detail);
    for (const text of link.underWay) text.settle({ kind: 'unanswered', reason: 'unreachable', detail });
    link.underWay.clear();
    this.#pump();
    if (isOver) return;
    const { reconnectLeastMs, reconnectMostMs } = this.#settings;
    const waitMs = backoffMs(this.#attempt, reconnectLeastMs, reconnectMostMs, this.#deps.random());
    this.#attempt += 1;
    this.#stopReconnect = this.#deps.clock.after(waitMs, () => this.#connect());
  }

  #become(standing: ChannelState['standing'], detail: string | null): void {
    this.#state = { standing, detail, sinceMs: this.#deps.clock.nowMs() };
  }
}
