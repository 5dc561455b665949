// The index of messages as an Atom feed (RFC 4287): one entry for each message, which leads to it.

import { createHash } from 'node:crypto';
import { CAP_TYPE } from './cap-xml.ts';
import { el, xmlDocument } from './xml.ts';

export const ATOM_TYPE = 'application/atom+xml; charset=utf-8';

export interface AtomEntry {
  readonly identifier: string;
  readonly sentMs: number;
  readonly msgType: string;
  readonly headline: string;
  readonly summary: string;
}

export interface AtomHead {
  readonly organisation: string;
  /** What it is an index of: two readers who may see different sites have different feeds. */
  readonly sites: readonly string[] | null;
  /** Where the service is reached; empty: addresses are relative to the feed. */
  readonly base: string;
}

/** `entries`: newest first. */
export function capAtom({ organisation, sites, base }: AtomHead, entries: readonly AtomEntry[]): string {
  const scope = sites === null ? '' : ` ${sites.toSorted().join(' ')}`;
  return xmlDocument(
    el(
      'feed',
      [
        el('id', urn(`feed ${organisation}${scope}`)),
        el('title', `Pitward: CAP messages, ${organisation}`),
        el('updated', instant(entries[0]?.sentMs ?? 0)),
        el('author', [el('name', `Pitward, ${organisation}`)]),
        el('link', [], { rel: 'self', type: 'application/atom+xml', href: `${base}/v1/cap.atom` }),
        ...entries.map(({ identifier, sentMs, msgType, headline, summary }) =>
          el('entry', [
            el('id', urn(`message ${identifier}`)),
            el('title', headline),
            el('updated', instant(sentMs)),
            el('category', [], { term: msgType }),
            el('link', [], {
              rel: 'alternate',
              type: CAP_TYPE,
              href: `${base}/v1/cap/${encodeURIComponent(identifier)}`,
            }),
            el('summary', summary),
          ]),
        ),
      ],
      { xmlns: 'http://www.w3.org/2005/Atom' },
    ),
  );
}

const instant = (ms: number): string => new Date(ms).toISOString();

/** A name for ever, made of what it names (RFC 9562, 5.8: version 8, the maker's own way). */
function urn(text: string): string {
  const bytes = createHash('sha256').update(`pitward cap ${text}`).digest().subarray(0, 16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x80;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  const parts = [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)];
  return `urn:uuid:${parts.join('-')}`;
}
