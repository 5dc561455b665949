// A message as XML, element by element in the order of the schema.

import type { CapAlert, CapArea, CapInfo, CapReference } from '#core/cap/cap-alert.ts';
import { el, elIf, type XmlElement, xmlDocument } from './xml.ts';

export const CAP_TYPE = 'application/cap+xml';

export function capXml(alert: CapAlert): string {
  const { identifier, sender, sent, status, msgType, scope, restriction, addresses, note } = alert;
  return xmlDocument(
    el(
      'alert',
      [
        el('identifier', identifier),
        el('sender', sender),
        el('sent', sent),
        el('status', status),
        el('msgType', msgType),
        el('scope', scope),
        elIf('restriction', restriction),
        elIf('addresses', listed(addresses)),
        elIf('note', note),
        elIf('references', alert.references.map(referenceText).join(' ')),
        elIf('incidents', listed(alert.incidents)),
        ...alert.infos.map(infoElement),
      ],
      { xmlns: 'urn:oasis:names:tc:emergency:cap:1.2' },
    ),
  );
}

const referenceText = ({ sender, identifier, sent }: CapReference): string =>
  `${sender},${identifier},${sent}`;

/** White space parts one from the next; what holds some stands in quotation marks. */
const listed = (texts: readonly string[]): string =>
  texts.map((text) => (/\s/.test(text) ? `"${text.replaceAll('"', "'")}"` : text)).join(' ');

const infoElement = (info: CapInfo): XmlElement =>
  el('info', [
    el('language', info.language),
    ...info.categories.map((category) => el('category', category)),
    el('event', info.event),
    el('responseType', info.responseType),
    el('urgency', info.urgency),
    el('severity', info.severity),
    el('certainty', info.certainty),
    elIf('onset', info.onset),
    el('expires', info.expires),
    el('senderName', info.senderName),
    el('headline', info.headline),
    el('description', info.description),
    el('instruction', info.instruction),
    elIf('contact', info.contact),
    ...info.parameters.map(([name, value]) => el('parameter', [el('valueName', name), el('value', value)])),
    ...info.areas.map(areaElement),
  ]);

const areaElement = ({ areaDesc, polygons, circles }: CapArea): XmlElement =>
  el('area', [
    el('areaDesc', areaDesc),
    ...polygons.map((points) => el('polygon', points.map(pointText).join(' '))),
    ...circles.map(({ at, radiusKm }) => el('circle', `${pointText(at)} ${radiusKm}`)),
  ]);

/** Latitude first: GeoJSON has it the other way about. */
const pointText = ([lat, lon]: readonly [number, number]): string => `${lat},${lon}`;
