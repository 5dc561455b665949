// The list of the map with tiles: whatever burns is on it, though the map has no place or no room for it.

import { expect, it } from 'vitest';
import { type GroundView, groundPage } from '#publish/page/board/ground-page.ts';
import { wordsOf } from './read-page.ts';

const view = (change: Partial<GroundView> = {}): GroundView => ({
  ...{ writtenMs: Date.parse('2026-04-14T17:30:00Z'), timeZone: 'America/Los_Angeles' },
  ...{ burns: [], unplaced: [], burnCount: 0, goes: [], goCount: 0, page: 1, pages: 1, pits: [] },
  ...{ isRefreshing: false, demo: false, query: {} },
  reader: { language: 'en', units: 'us' },
  ...{ script: '/s.js', library: { module: '/m.js', worker: '/w.js' }, styles: { day: '{}', night: '{}' } },
  ...{ bounds: [-121, 36, -120, 37], attribution: null },
  ...change,
});

it('names a fire of which nobody can say where it lies', () => {
  const burn = { id: 'b', state: 'charging', since: '2026-04-14T09:00:00-07:00' } as const;
  const words = wordsOf(groundPage(view({ unplaced: [{ site: 'far-block', burn }], burnCount: 1 })));
  expect(words).toMatch(/far-block: Charging, since 9:00 am/);
});

it('leads to the pits for which one map has no room', () => {
  expect(groundPage(view())).not.toContain('page=2');
  const second = groundPage(view({ burnCount: 120, page: 2, pages: 3, query: { page: '2' } }));
  expect(second).toContain('href="?page=1"');
  expect(second).toContain('<b aria-current="page">2</b>');
  expect(second).toContain('href="?page=3"');
});
