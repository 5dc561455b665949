// What the text of the standard asks of a message and its schema lets pass, and what we ask beside. One line for each fault.
// CAP 1.2, section 3.2: identifier, sender, references (3.2.1), polygon and circle (3.2.4), dateTime (3.3.2).

import type { CapAlert, CapArea, CapInfo, CapReference } from './cap-alert.ts';

const NAME = /^[^\s,<&]+$/u;
const DATE_TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[-+]\d\d:\d\d$/;
const NEEDS_REFERENCES = ['Update', 'Cancel', 'Ack', 'Error'];

/** By the standard. */
export function capFaults(alert: CapAlert): string[] {
  const { msgType, scope, restriction, addresses, references, infos } = alert;
  return [
    ...nameFaults(alert, ''),
    ...references.flatMap((reference, i) => nameFaults(reference, `references[${i}].`)),
    ...faultIf(
      NEEDS_REFERENCES.includes(msgType) && references.length === 0,
      `references: ${msgType} without any`,
    ),
    ...faultIf(
      references.some(({ identifier }) => identifier === alert.identifier),
      'references: names itself',
    ),
    ...faultIf(
      references.some(({ sent }) => instantOf(sent) > instantOf(alert.sent)),
      'references: names a later message',
    ),
    ...faultIf(scope === 'Restricted' && !restriction?.trim(), 'restriction: missing for scope Restricted'),
    ...faultIf(scope === 'Private' && addresses.length === 0, 'addresses: missing for scope Private'),
    ...infos.flatMap((info, i) => infoFaults(info, alert, `info[${i}].`)),
  ];
}

/** What we ask of our own beside: never public, always of use to a receiver that must decide for itself. */
export function ownCapFaults(alert: CapAlert): string[] {
  const { status, msgType, scope, references, infos } = alert;
  const [first, ...others] = infos;
  const sameTerms = others.every((info) => termsText(info) === termsText(first));
  return [
    ...capFaults(alert),
    ...faultIf(scope !== 'Restricted' && scope !== 'Private', `scope: ${scope}`),
    ...faultIf(status !== 'Actual' && status !== 'Exercise', `status: ${status}`),
    ...faultIf(msgType === 'Alert' && references.length > 0, 'references: an Alert begins a chain'),
    ...faultIf(infos.map((i) => i.language).join() !== 'en-US,es-US', 'info: expected en-US and es-US'),
    ...faultIf(!sameTerms, 'info: languages that tell different things'),
    ...faultIf(
      infos.some(({ areas }) => areas.length === 0),
      'area: missing',
    ),
    ...faultIf(
      infos.some((i) => msgType !== 'Cancel' && !(instantOf(i.expires) > instantOf(alert.sent))),
      'expires: not after sent',
    ),
  ];
}

const faultIf = (isFault: boolean, text: string): string[] => (isFault ? [text] : []);

/** NaN for what is no instant. */
const instantOf = (text: string): number => {
  try {
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch {
    return Number.NaN;
  }
};

const nameFaults = ({ identifier, sender, sent }: CapReference, at: string): string[] => [
  ...faultIf(!NAME.test(identifier), `${at}identifier: "${identifier}"`),
  ...faultIf(!NAME.test(sender), `${at}sender: "${sender}"`),
  ...timeFaults(sent, `${at}sent`),
];

const timeFaults = (text: string, at: string): string[] =>
  faultIf(!DATE_TIME.test(text) || Number.isNaN(instantOf(text)), `${at}: "${text}"`);

function infoFaults(info: CapInfo, { sent }: CapAlert, at: string): string[] {
  const { expires, onset, areas } = info;
  return [
    ...(expires === '' ? [] : timeFaults(expires, `${at}expires`)),
    ...(onset === null ? [] : timeFaults(onset, `${at}onset`)),
    ...faultIf(instantOf(expires) < instantOf(sent), `${at}expires: before sent`),
    ...areas.flatMap((area, i) => areaFaults(area, `${at}area[${i}].`)),
  ];
}

function areaFaults({ areaDesc, polygons, circles }: CapArea, at: string): string[] {
  const closed = polygons.every((p) => p.length >= 4 && String(p[0]) === String(p.at(-1)));
  return [
    ...faultIf(areaDesc.trim() === '', `${at}areaDesc: empty`),
    ...faultIf(!closed, `${at}polygon: fewer than four points, or not closed`),
    ...faultIf(!polygons.flat().every(isPlace), `${at}polygon: a point that is none`),
    ...faultIf(!circles.every((c) => isPlace(c.at) && c.radiusKm >= 0), `${at}circle: is none`),
  ];
}

/** Latitude first: a place of ours with the two changed about is seldom one. */
const isPlace = ([lat, lon]: readonly [number, number]): boolean =>
  Math.abs(lat) <= 90 && Math.abs(lon) <= 180;

const termsText = (info: CapInfo | undefined): string =>
  JSON.stringify(
    info && [
      info.categories,
      info.urgency,
      info.severity,
      info.certainty,
      info.responseType,
      info.expires,
      info.onset,
    ],
  );
