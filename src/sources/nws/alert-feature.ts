// One feature of an alert collection, read with care: what cannot be read is null, and nothing is thrown away here.

import { hash } from 'node:crypto';
import { parseInstantMs } from '#core/units/local-time.ts';
import { isObject, type JsonObject, textOf } from './json.ts';
import { type Outline, readOutline } from './outline.ts';
import { zoneOfUrl } from './point.ts';

/** A VTEC event: NWS Instruction 10-1703, `/k.aaa.cccc.pp.s.####.begin-end/`. */
export interface VtecEvent {
  /** `O` operational, `T` test, `E` experimental, `X` experimental in an operational product. */
  readonly productClass: string;
  /** `NEW`, `CON`, `CAN` … */
  readonly action: string;
  /** Office, phenomenon, significance and number: the same for all messages on one event. */
  readonly key: string;
}

export interface AlertFeature {
  readonly id: string;
  readonly event: string;
  /** False where the feature could not be read at all. */
  readonly readable: boolean;
  readonly status: string | null;
  readonly messageType: string | null;
  readonly fromMs: number | null;
  readonly toMs: number | null;
  readonly sentMs: number | null;
  readonly senderName: string;
  readonly headline: string;
  readonly zones: readonly { readonly kind: string; readonly code: string }[];
  /** Zone and county codes without their kind. */
  readonly codes: readonly string[];
  /** Null where the alert has none, as most have, or none that can be read. */
  readonly outline: Outline | null;
  readonly vtec: readonly VtecEvent[];
  /** Ids of the messages that this one replaces. */
  readonly replaces: readonly string[];
  readonly saysTest: boolean;
}

export const UNREADABLE_EVENT = 'unreadable alert';

/** Reads one feature. What is no feature at all becomes an `unreadable alert` without times, never nothing. */
export function readAlertFeature(feature: unknown): AlertFeature {
  const outer = isObject(feature) ? feature : {};
  const properties = isObject(outer['properties']) ? outer['properties'] : {};
  const parameters = isObject(properties['parameters']) ? properties['parameters'] : {};
  const event = textOf(properties['event']);
  const zones = listOf(properties['affectedZones'])
    .map(zoneOfUrl)
    .filter((zone) => zone !== null);
  const geocode = isObject(properties['geocode']) ? properties['geocode'] : {};
  const ugc = listOf(geocode['UGC']).filter((code) => typeof code === 'string');
  return {
    id: idOf(textOf(properties['id']) ?? textOf(outer['id']) ?? textOf(properties['@id']) ?? ownId(feature)),
    event: event ?? UNREADABLE_EVENT,
    readable: event !== null,
    status: textOf(properties['status']),
    messageType: textOf(properties['messageType']),
    ...windowOf(properties, parameters),
    sentMs: instantOf(properties['sent']),
    senderName: textOf(properties['senderName']) ?? '',
    headline: textOf(properties['headline']) ?? '',
    zones,
    codes: [...new Set([...zones.map((zone) => zone.code), ...ugc])],
    outline: readOutline(outer['geometry']),
    vtec: listOf(parameters['VTEC'])
      .map(readVtec)
      .filter((vtec) => vtec !== null),
    replaces: replacedIds(properties, parameters),
    saysTest: [properties['headline'], properties['description'], event].some(saysTest),
  };
}

/**
 * When the event begins and ends. `expires` is the shelf life of the message, often before the event begins, so it
 * counts only where nothing else does; an end that is not after the beginning is no end.
 */
function windowOf(
  properties: JsonObject,
  parameters: JsonObject,
): { fromMs: number | null; toMs: number | null } {
  const fromMs = instantOf(properties['onset']) ?? instantOf(properties['effective']);
  const ends = [properties['ends'], listOf(parameters['eventEndingTime'])[0], properties['expires']];
  const toMs = ends.map(instantOf).find((end) => end !== null) ?? null;
  return { fromMs, toMs: toMs !== null && fromMs !== null && toMs <= fromMs ? null : toMs };
}

function readVtec(text: unknown): VtecEvent | null {
  if (typeof text !== 'string') return null;
  const match =
    /^\/([OTEX])\.([A-Z]{3})\.([A-Z]{4}\.[A-Z]{2}\.[A-Z]\.\d{4})\.\d{6}T\d{4}Z-\d{6}T\d{4}Z\/$/.exec(
      text.trim(),
    );
  return match && { productClass: match[1] as string, action: match[2] as string, key: match[3] as string };
}

/** `references` is a list of records; `expiredReferences` is text, `sender,id,sent` parted by blanks. */
function replacedIds(properties: JsonObject, parameters: JsonObject): string[] {
  const listed = listOf(properties['references'])
    .map((row) => (isObject(row) ? (textOf(row['identifier']) ?? textOf(row['@id'])) : null))
    .filter((id) => id !== null);
  const expired = listOf(parameters['expiredReferences'])
    .flatMap((text) => (typeof text === 'string' ? text.split(/\s+/) : []))
    .map((triple) => triple.split(',')[1] ?? '')
    .filter((id) => id !== '');
  return [...new Set([...listed, ...expired].map(idOf))];
}

const TEST_MARK = /\bTHIS[_ ]MESSAGE[_ ]IS[_ ]FOR[_ ]TEST[_ ]PURPOSES[_ ]ONLY\b|^TEST MESSAGE$/i;
const saysTest = (text: unknown): boolean => typeof text === 'string' && TEST_MARK.test(text);

/** An id as a URL and the bare id are the same alert. */
const idOf = (id: string): string => id.replace(/^https?:\/\/[^/]+\/alerts\//, '');

const ownId = (feature: unknown): string =>
  `unnamed-${hash('sha256', JSON.stringify(feature) ?? 'undefined', 'hex').slice(0, 16)}`;

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

const instantOf = (value: unknown): number | null =>
  typeof value === 'string' ? parseInstantMs(value) : null;
