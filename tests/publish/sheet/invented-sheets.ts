// Day sheets of the invented days. No test in here.

import { type Sheet, sheetOf } from '#publish/page/sheet/sheet.ts';
import { sheetPage } from '#publish/page/sheet/sheet-page.ts';
import type { SiteView } from '#publish/page/site-page.ts';
import { type Story, siteView } from '../page/invented-days.ts';
import { LOOKS } from '../page/looks.ts';

export type SheetName = keyof typeof LOOKS;
export const sheetNames = Object.keys(LOOKS) as SheetName[];

export interface InventedSheet {
  readonly view: SiteView;
  readonly sheet: Sheet;
}

export function inventedSheet(name: SheetName, change: Partial<Story> = {}): InventedSheet {
  const view = siteView({ ...(LOOKS[name] as Story), ...change });
  return { view, sheet: sheetOfView(view) };
}

export const sheetOfView = (view: SiteView): Sheet =>
  sheetOf(view, {
    at: [33.1, -83.1],
    holdAfterMin: 840,
    places: view.keepOff.map((p) => ({ ...p, distanceM: 805 })),
  });

export const sheetHtml = ({ view, sheet }: InventedSheet, query: Record<string, string> = {}): string =>
  sheetPage({
    sheet,
    id: 'heron-bend-2',
    date: view.plan.day,
    zone: { timeZone: view.plan.timeZone, atMs: view.nowMs },
    demo: view.plan.demo,
    units: view.reader.units,
    query,
  });
