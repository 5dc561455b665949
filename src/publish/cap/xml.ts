// XML written by hand: elements and text, nothing else. What no XML 1.0 document may hold is written as a question mark in a
// box (U+FFFD), so that whatever somebody typed makes a document that can be read.

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlNode[];
}

export type XmlNode = XmlElement | string | null;

export const el = (
  name: string,
  children: string | readonly XmlNode[],
  attributes: Readonly<Record<string, string>> = {},
): XmlElement => ({ name, attributes, children: typeof children === 'string' ? [children] : children });

/** Left out where there is nothing to say. */
export const elIf = (name: string, text: string | null): XmlElement | null =>
  text === null || text === '' ? null : el(name, text);

export const xmlDocument = (root: XmlElement): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${written(root, '')}\n`;

function written({ name, attributes, children }: XmlElement, indent: string): string {
  const given = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(value)}"`);
  const start = `${indent}<${name}${given.join('')}`;
  const inner = children.filter((child) => child !== null);
  if (inner.length === 0) return `${start}/>`;
  const texts = inner.filter((child) => typeof child === 'string');
  if (texts.length === inner.length) return `${start}>${texts.map(escaped).join('')}</${name}>`;
  const lines = inner.map((child) =>
    typeof child === 'string' ? `${indent}  ${escaped(child)}` : written(child, `${indent}  `),
  );
  return `${start}>\n${lines.join('\n')}\n${indent}</${name}>`;
}

/** XML 1.0, production 2: Char. Half a surrogate pair is none. */
const NOT_CHARS = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  // A reader would make another white space of it.
  '\r': '&#13;',
};

const escaped = (text: string): string =>
  text.replaceAll(NOT_CHARS, '\ufffd').replaceAll(/[&<>"\r]/g, (char) => ESCAPES[char] ?? char);
