// Alert collections → the official alerts that concern a place. Where it is in doubt whether an alert stands or is
// ours, it stays in: one alert too many costs an hour, one too few can burn a person.

import type { AlertsSeen, OfficialAlert } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';
import { parseInstantMs } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import { type AlertFeature, readAlertFeature } from './alert-feature.ts';
import { type Fit, fitOf, RANK, type Zones } from './alert-fit.ts';
import { isObject, parseJson, textOf } from './json.ts';

export interface AlertCollection {
  /** `point`, `zone`: the answer to that query; `all`: any list, to be matched by zones and outlines. */
  readonly query: 'point' | 'zone' | 'all';
  readonly features: readonly AlertFeature[];
}

export type DropReason = 'not-actual' | 'test' | 'elsewhere' | 'ended' | 'replaced';

export interface AlertsReading {
  readonly alerts: readonly OfficialAlert[];
  /** Every alert left out, with the reason. */
  readonly dropped: readonly { readonly id: string; readonly event: string; readonly reason: DropReason }[];
  /** Ids that some message of ours ends or replaces, listed or not. */
  readonly endedIds: ReadonlySet<string>;
}

export interface AlertList {
  readonly features: readonly AlertFeature[];
  /** False where further pages follow, or may follow. */
  readonly whole: boolean;
  /** When the list last changed, as it says itself [epoch ms]; honestly old where no alert came or went. */
  readonly updatedMs: number | null;
}

/** Reads an alert answer. Throws ServiceError `source_unreadable`. */
export function readAlertCollection(bytes: Uint8Array): AlertList {
  const document = parseJson(bytes, 'the alerts answer');
  if (isObject(document) && Array.isArray(document['features'])) {
    const updated = textOf(document['updated']);
    const features = document['features'].map(readAlertFeature);
    return {
      features,
      whole: isLastPage(document['pagination'] ?? null) && features.length !== PAGE_LENGTH,
      updatedMs: updated === null ? null : parseInstantMs(updated),
    };
  }
  if (isObject(document) && document['type'] === 'Feature') {
    return { features: [readAlertFeature(document)], whole: true, updatedMs: null };
  }
  throw new ServiceError('source_unreadable', 'the answer is no list of alerts');
}

/** The service gives no more alerts than this at once where it gives them in pages: such a list may have been cut. */
const PAGE_LENGTH = 500;

/** Whatever stands for a next page may be one, and what cannot be read may hide one. */
const isLastPage = (pagination: unknown): boolean =>
  pagination === null || (isObject(pagination) && (pagination['next'] ?? null) === null);

/**
 * The alerts of several queries, each once. With `zones`, an alert is ours where a zone fits by kind and code, the point
 * query brought it, or, in a list of all, its outline holds the place; where only the code fits, or a zone query brought
 * it without naming our zone, it is `possible`. Left out: not `Actual`, tests, ended (VTEC CAN and UPG; EXP once its end
 * has come; Cancel) and replaced.
 */
export function readAlerts(
  collections: readonly AlertCollection[],
  zones: Zones | null,
  place: Place | null = null,
): AlertsReading {
  const listed = new Map<string, Listed>();
  for (const { query, features } of collections) {
    for (const feature of features) {
      const alert = distinct(feature, listed);
      const fit = query === 'point' ? 'certain' : fitOf(alert, query, zones, place);
      const before = listed.get(alert.id);
      if (!before || RANK[fit] > RANK[before.fit]) listed.set(alert.id, { alert, fit });
    }
  }
  const all = [...listed.values()];
  const standing = all.filter((item) => reasonApart(item) === null);
  const replaced = replacedAmong(standing);
  const reasonOf = (item: Listed): DropReason | null => {
    const apart = reasonApart(item);
    if (apart !== null) return apart;
    if (isEnded(item.alert)) return 'ended';
    return replaced.has(item.alert.id) ? 'replaced' : null;
  };
  const dropped = all.flatMap((item) => {
    const reason = reasonOf(item);
    return reason === null ? [] : [{ id: item.alert.id, event: item.alert.event, reason }];
  });
  const named = standing.filter((item) => item.fit === 'certain').flatMap((item) => item.alert.replaces);
  const gone = dropped
    .filter(({ reason }) => reason === 'ended' || reason === 'replaced')
    .map(({ id }) => id);
  return {
    alerts: all.filter((item) => reasonOf(item) === null).map(official),
    dropped,
    endedIds: new Set([...named, ...gone]),
  };
}

/**
 * Reads a saved alert answer for a replay. `zones` null takes every alert of it; `nowMs` is when it counts as fetched.
 * Throws ServiceError `source_unreadable` where the bytes are no list of alerts.
 */
export function readSavedAlerts(bytes: Uint8Array, zones: Zones | null, nowMs: number): AlertsSeen {
  const { features, whole } = readAlertCollection(bytes);
  const { alerts } = readAlerts([{ query: 'all', features }], zones);
  return { fetchedAtMs: nowMs, complete: whole, alerts };
}

interface Listed {
  readonly alert: AlertFeature;
  readonly fit: Fit;
}

/** Two alerts under one id are one only if they say the same; otherwise the second gets a name of its own. */
function distinct(alert: AlertFeature, listed: ReadonlyMap<string, Listed>): AlertFeature {
  const before = listed.get(alert.id)?.alert;
  const same = (['event', 'fromMs', 'toMs', 'sentMs'] as const).every(
    (member) => before?.[member] === alert[member],
  );
  return before === undefined || same
    ? alert
    : { ...alert, id: `${alert.id} ${alert.event} ${alert.fromMs} ${alert.toMs}` };
}

/** CAP 1.2, `status`: everything but Actual. */
const NOT_ACTUAL: ReadonlySet<string> = new Set(['exercise', 'system', 'test', 'draft']);

/** Why an alert is none of ours, whatever the others say. */
function reasonApart({ alert, fit }: Listed): DropReason | null {
  if (!alert.readable) return null;
  // Only what is said to be no real alert is left out; a word that we do not know counts as real.
  if (NOT_ACTUAL.has(alert.status?.trim().toLowerCase() ?? '')) return 'not-actual';
  // With a VTEC its class decides, so that no word in a text can put out a real warning.
  if (alert.vtec.length > 0 ? alert.vtec.every((vtec) => vtec.productClass === 'T') : alert.saysTest)
    return 'test';
  return fit === 'elsewhere' ? 'elsewhere' : null;
}

/**
 * Ended by its own word: every event in it is cancelled or upgraded, or it is a Cancel without a live event. EXP may
 * come up to half an hour before the event ends (from memory), so such an alert stands until its end.
 */
function isEnded(alert: AlertFeature): boolean {
  if (alert.vtec.length === 0) return alert.messageType === 'Cancel';
  return alert.vtec.every(
    ({ action }) => action === 'CAN' || action === 'UPG' || (action === 'EXP' && !endsAfterSent(alert)),
  );
}

const endsAfterSent = ({ toMs, sentMs }: AlertFeature): boolean =>
  toMs !== null && sentMs !== null && toMs > sentMs;

/** Ids of alerts that a later one in the list replaces. A message that may not be ours replaces no certain one. */
function replacedAmong(standing: readonly Listed[]): Set<string> {
  const replaced = new Set<string>();
  for (const later of standing) {
    for (const earlier of standing) {
      if (later === earlier || RANK[later.fit] < RANK[earlier.fit]) continue;
      if (isLater(later.alert, earlier.alert) && replaces(later.alert, earlier.alert))
        replaced.add(earlier.alert.id);
    }
  }
  return replaced;
}

/** Strictly later, both times known: two messages that name each other must not put out both. */
const isLater = (a: AlertFeature, b: AlertFeature): boolean =>
  a.sentMs !== null && b.sentMs !== null && a.sentMs > b.sentMs;

function replaces(later: AlertFeature, earlier: AlertFeature): boolean {
  if (later.replaces.includes(earlier.id)) return true;
  if (earlier.codes.length === 0 || !earlier.codes.every((code) => later.codes.includes(code))) return false;
  if (earlier.vtec.length > 0) {
    return earlier.vtec.every(({ key }) => later.vtec.some((vtec) => vtec.key === key));
  }
  return later.vtec.length === 0 && isReissue(later, earlier);
}

/**
 * A re-issue without VTEC (air quality alerts, special weather statements): same event, sender and zones. It replaces
 * only what it covers in time: one bulletin may speak of today and the next of tomorrow.
 */
function isReissue(later: AlertFeature, earlier: AlertFeature): boolean {
  if (later.event !== earlier.event || later.senderName !== earlier.senderName) return false;
  if (later.messageType === 'Cancel' || later.codes.length !== earlier.codes.length) return false;
  if (later.fromMs === null || later.sentMs === null) return false;
  const fromFits = later.fromMs <= Math.max(earlier.fromMs ?? Number.NEGATIVE_INFINITY, later.sentMs);
  return fromFits && (later.toMs === null || (earlier.toMs !== null && later.toMs >= earlier.toMs));
}

const official = ({ alert, fit }: Listed): OfficialAlert => ({
  id: alert.id,
  event: alert.event,
  fromMs: alert.fromMs,
  toMs: alert.toMs,
  sentMs: alert.sentMs,
  senderName: alert.senderName,
  headline: alert.headline,
  possible: fit === 'possible',
});
