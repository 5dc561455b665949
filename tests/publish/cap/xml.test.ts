// Whatever somebody typed makes XML that others read back: libxml2 for its form, an XML parser for its text (XML 1.0, 2.2).

import fc from 'fast-check';
import { XMLParser } from 'fast-xml-parser';
import { parseAtomFeed } from 'feedsmith';
import { expect, it } from 'vitest';
import { capAtom } from '#publish/cap/atom.ts';
import { capXml } from '#publish/cap/cap-xml.ts';
import { el, xmlDocument } from '#publish/cap/xml.ts';
import { readAlert, schemaFaults } from '../../service/cap/read-cap.ts';
import { alertOf, infoOf } from './alert-of.ts';

const NASTY = 'Ana & "Ben" <b>]]>\u0000\u0008\ud800\uffff é 火 \u{1f525}';

it('any text comes back as it was, but for what no document may hold', () => {
  const parser = new XMLParser({ parseTagValue: false, trimValues: false, processEntities: true });
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  const unwritable = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/gu;
  const typed = fc
    .string({ unit: 'binary', minLength: 1 })
    .filter((text) => text.trim() !== '' && !text.includes('\r'));
  fc.assert(
    fc.property(typed, (text) => {
      const read = parser.parse(xmlDocument(el('a', [el('b', text)]))).a.b;
      expect(read).toBe(text.toWellFormed().replaceAll(unwritable, '\ufffd'));
    }),
    { numRuns: 40 },
  );
});

it('a site of any name makes a message that is valid by the schema', async () => {
  const infos = [infoOf({ headline: NASTY, areas: [{ areaDesc: NASTY, polygons: [], circles: [] }] })];
  const text = capXml(alertOf({ infos, incidents: ['one two', 'a"b c'], addresses: ['dispatch one'] }));
  expect(await schemaFaults([text])).toEqual([]);
  const read = readAlert(text);
  expect(read.infos[0]?.headline).toBe('Ana & "Ben" <b>]]>\ufffd\ufffd\ufffd\ufffd é 火 \u{1f525}');
  expect(read.incidents).toEqual(['one two', "a'b c"]);
});

it('the index reads as an Atom feed with everything that RFC 4287, 4.1 asks for, and names stay', () => {
  const entry = {
    identifier: 'pitward.own.1',
    sentMs: 1_776_186_000_000,
    msgType: 'Alert',
    headline: NASTY,
    summary: 's',
  };
  const text = capAtom({ organisation: 'own', sites: null, base: 'https://pit.example' }, [entry]);
  const feed = parseAtomFeed(text);
  expect(feed).toMatchObject({ updated: '2026-04-14T17:00:00.000Z', authors: [{ name: 'Pitward, own' }] });
  const [read] = feed.entries ?? [];
  expect(read).toMatchObject({
    updated: '2026-04-14T17:00:00.000Z',
    categories: [{ term: 'Alert' }],
    links: [
      { rel: 'alternate', type: 'application/cap+xml', href: 'https://pit.example/v1/cap/pitward.own.1' },
    ],
  });
  const again = parseAtomFeed(capAtom({ organisation: 'own', sites: null, base: '' }, [entry]));
  expect(again.entries?.[0]?.id).toBe(read?.id);
  expect(again.id).toBe(feed.id);
  const uuid = /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
  for (const id of [feed.id, read?.id]) expect(id).toMatch(uuid);
  const empty = parseAtomFeed(capAtom({ organisation: 'own', sites: ['a'], base: '' }, []));
  expect(empty.updated).toBe('1970-01-01T00:00:00.000Z');
  expect(empty.id).not.toBe(feed.id);
});
