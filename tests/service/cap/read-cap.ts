// Messages read back by others: libxml2 with the schema of the standard where it is at hand, an XML parser, an Atom reader.

import { existsSync, readFileSync } from 'node:fs';
import { XMLParser } from 'fast-xml-parser';
import { validateXML } from 'xmllint-wasm';
import type { CapAlert, CapArea, CapInfo, CapReference } from '#core/cap/cap-alert.ts';

/** The schema of OASIS and its sample messages, kept beside the checkout and never in it. */
const DATA = new URL('../../../../shared/data/cap/', import.meta.url);
export const HAS_SCHEMA = existsSync(new URL('CAP-v1.2.xsd', DATA));
if (!HAS_SCHEMA)
  console.log('No CAP 1.2 schema in ../shared/data/cap beside the checkout: tests against it are skipped.');

export const capFile = (name: string): string => readFileSync(new URL(name, DATA), 'utf8');

/** What libxml2 says against messages; empty where they are valid, or no schema is at hand. */
export async function schemaFaults(messages: readonly string[]): Promise<readonly string[]> {
  if (!HAS_SCHEMA || messages.length === 0) return [];
  const xml = messages.map((contents, i) => ({ fileName: `message-${i}.xml`, contents }));
  const { errors } = await validateXML({ xml, schema: [capFile('CAP-v1.2.xsd')] });
  return errors.map(({ rawMessage }) => rawMessage);
}

const MANY = [
  'info',
  'category',
  'responseType',
  'parameter',
  'area',
  'polygon',
  'circle',
  'code',
  'geocode',
];
const parser = new XMLParser({
  ignoreAttributes: true,
  parseTagValue: false,
  removeNSPrefix: true,
  isArray: (name) => MANY.includes(name),
});

type Parsed = Record<string, string> & { readonly [name: string]: never };

/** A message as it reads. */
export function readAlert(text: string): CapAlert {
  const { alert } = parser.parse(text) as { alert: Record<string, unknown> };
  const own = textOf(alert);
  return {
    identifier: own('identifier') ?? '',
    sender: own('sender') ?? '',
    sent: own('sent') ?? '',
    status: own('status') ?? '',
    msgType: own('msgType') ?? '',
    scope: own('scope') ?? '',
    restriction: own('restriction'),
    addresses: words(own('addresses')),
    note: own('note'),
    references: words(own('references')).map(readReference),
    incidents: words(own('incidents')),
    infos: ((alert['info'] ?? []) as Parsed[]).map(readInfo),
  };
}

const textOf =
  (parsed: Record<string, unknown>) =>
  (name: string): string | null =>
    name in parsed ? String(parsed[name]).trim() : null;

const words = (text: string | null): string[] =>
  [...(text ?? '').matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');

const readReference = (text: string): CapReference => {
  const [sender = '', identifier = '', sent = ''] = text.split(',');
  return { sender, identifier, sent };
};

function readInfo(parsed: Parsed): CapInfo {
  const own = textOf(parsed);
  const many = (name: string) => (parsed[name] ?? []) as unknown[];
  return {
    language: own('language') ?? 'en-US',
    categories: many('category') as CapInfo['categories'],
    event: own('event') ?? '',
    responseType: (many('responseType')[0] ?? 'None') as CapInfo['responseType'],
    urgency: own('urgency') as CapInfo['urgency'],
    severity: own('severity') as CapInfo['severity'],
    certainty: own('certainty') as CapInfo['certainty'],
    onset: own('onset'),
    expires: own('expires') ?? '',
    senderName: own('senderName') ?? '',
    headline: own('headline') ?? '',
    description: own('description') ?? '',
    instruction: own('instruction') ?? '',
    contact: own('contact'),
    parameters: (many('parameter') as { valueName: string; value: string }[]).map(
      ({ valueName, value }) => [valueName, value] as const,
    ),
    areas: (many('area') as Parsed[]).map(readArea),
  };
}

const pair = (text: string): readonly [number, number] => {
  const [lat = Number.NaN, lon = Number.NaN] = text.split(',').map(Number);
  return [lat, lon];
};

function readArea(parsed: Parsed): CapArea {
  const many = (name: string) => (parsed[name] ?? []) as string[];
  return {
    areaDesc: textOf(parsed)('areaDesc') ?? '',
    polygons: many('polygon').map((text) => text.trim().split(/\s+/).map(pair)),
    circles: many('circle').map((text) => {
      const [at = '', radius = ''] = text.trim().split(/\s+/);
      return { at: pair(at), radiusKm: Number(radius) };
    }),
  };
}
