// PMTiles files (specification version 3) of an invented ground, written for tests. No test in here.

import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { GeoJSONVT } from '@maplibre/geojson-vt';
import { fromGeojsonVt } from '@maplibre/vt-pbf';
import { zxyToTileId } from 'pmtiles';

export interface InventedTile {
  readonly z: number;
  readonly x: number;
  readonly y: number;
  readonly bytes: Uint8Array;
}

export const MVT = 1;
export const PNG = 2;

/** Sections: header of 127 bytes, one root directory, metadata, tiles; nothing is compressed. */
export function pmtilesBytes(type: number, tiles: readonly InventedTile[], metadata: object): Buffer {
  const sorted = tiles
    .map(({ z, x, y, bytes }) => ({ id: zxyToTileId(z, x, y), z, bytes }))
    .sort((a, b) => a.id - b.id);
  const directory = directoryBytes(sorted);
  const json = Buffer.from(JSON.stringify(metadata));
  const data = Buffer.concat(sorted.map(({ bytes }) => bytes));
  const header = Buffer.alloc(127);
  header.write('PMTiles', 0, 'latin1');
  header.writeUInt8(3, 7);
  const sections = [127, directory.length, 127 + directory.length, json.length, 0, 0];
  const at = 127 + directory.length + json.length;
  [...sections, at, data.length, sorted.length, sorted.length, sorted.length].forEach((value, i) => {
    header.writeBigUInt64LE(BigInt(value), 8 + 8 * i);
  });
  header.writeUInt8(1, 96);
  // Neither the directory nor the tiles are compressed.
  header.writeUInt8(1, 97);
  header.writeUInt8(1, 98);
  header.writeUInt8(type, 99);
  header.writeUInt8(Math.min(...sorted.map(({ z }) => z)), 100);
  header.writeUInt8(Math.max(...sorted.map(({ z }) => z)), 101);
  [-121, 35.8, -119, 37].forEach((deg, i) => {
    header.writeInt32LE(Math.round(deg * 1e7), 102 + 4 * i);
  });
  return Buffer.concat([header, directory, json, data]);
}

function directoryBytes(tiles: readonly { id: number; bytes: Uint8Array }[]): Buffer {
  const lengths = tiles.map(({ bytes }) => bytes.length);
  const ids = tiles.map(({ id }, i) => id - (tiles[i - 1]?.id ?? 0));
  // An offset of 0 says that a tile lies right behind the one before.
  const offsets = tiles.map((_, i) => (i === 0 ? 1 : 0));
  return Buffer.from([tiles.length, ...ids, ...tiles.map(() => 1), ...lengths, ...offsets].flatMap(varint));
}

function varint(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  while (rest >= 128) {
    bytes.push((rest % 128) + 128);
    rest = Math.floor(rest / 128);
  }
  return [...bytes, rest];
}

/** A picture of one colour, 256 pixels square (PNG, truecolour of 8 bits). */
export function pngOf(red: number, green: number, blue: number): Buffer {
  const side = 256;
  const row = Buffer.from([0, ...Array.from({ length: side }, () => [red, green, blue]).flat()]);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(side, 0);
  head.writeUInt32BE(side, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const pixels = deflateSync(Buffer.concat(Array.from({ length: side }, () => row)));
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('IDAT', pixels),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let i = 0; i < 8; i += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

type At = readonly [number, number];

const tileOf = ([lon, lat]: At, z: number): readonly [number, number] => {
  const rad = (lat * Math.PI) / 180;
  const y = (1 - Math.asinh(Math.tan(rad)) / Math.PI) / 2;
  return [Math.floor(((lon + 180) / 360) * 2 ** z), Math.floor(y * 2 ** z)];
};

/** Tiles of the zooms 0 to 8 about the invented district. */
function tilesAbout(bytesOf: (z: number, x: number, y: number) => Uint8Array | null): InventedTile[] {
  return Array.from({ length: 9 }, (_, z) => z).flatMap((z) => {
    const [west, north] = tileOf([-121, 37], z);
    const [east, south] = tileOf([-119, 35.8], z);
    const columns = Array.from({ length: east - west + 1 }, (_, i) => west + i);
    const rows = Array.from({ length: south - north + 1 }, (_, i) => north + i);
    return columns.flatMap((x) =>
      rows.flatMap((y) => {
        const bytes = bytesOf(z, x, y);
        return bytes === null ? [] : [{ z, x, y, bytes }];
      }),
    );
  });
}

export const rasterBytes = (): Buffer => {
  const [light, dark] = [pngOf(214, 224, 208), pngOf(196, 208, 190)];
  const tiles = tilesAbout((_z, x, y) => ((x + y) % 2 === 0 ? light : dark));
  return pmtilesBytes(PNG, tiles, {
    attribution: '<a href="https://maps.example">Valley &amp; Range maps</a>',
  });
};

const line = (...coordinates: At[]) => ({
  type: 'Feature' as const,
  properties: {},
  geometry: { type: 'LineString' as const, coordinates: coordinates.map((at) => [...at]) },
});

export const vectorBytes = (): Buffer => {
  const features = [
    line([-121, 36.2], [-120.2, 36.4], [-119, 36.5]),
    line([-120.5, 35.8], [-120.1, 36.4], [-119.8, 37]),
  ];
  const index = new GeoJSONVT({ type: 'FeatureCollection', features }, { maxZoom: 8 });
  const tiles = tilesAbout((z, x, y) => {
    const tile = index.getTile(z, x, y);
    return tile === null ? null : fromGeojsonVt({ roads: tile }, { version: 2 });
  });
  return pmtilesBytes(MVT, tiles, { vector_layers: [{ id: 'roads', fields: {} }] });
};

/** Where the bytes were written. */
export function tileFile(bytes: Uint8Array): string {
  const file = join(mkdtempSync(join(tmpdir(), 'pitward-tiles-')), 'ground.pmtiles');
  writeFileSync(file, bytes);
  return file;
}
