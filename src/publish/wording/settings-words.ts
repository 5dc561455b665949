// Words of the settings: pages about sites, limits, orders and contacts, and what a change of them does.

import { settingsEnglish } from './settings-en.ts';
import { settingsSpanish } from './settings-es.ts';
import type { Language } from './show.ts';

export const FIELD_NAMES = [
  'id',
  'name',
  'element',
  'when',
  'atLeastHold',
  'atLeastStop',
  'atMostHold',
  'atMostStop',
  'inclusive',
  'height',
  'averaging',
  'source',
  'lightFrom',
  'lastChargeBy',
  'outBy',
  'seasonFrom',
  'seasonTo',
  'verdict',
  'table',
  'unit',
  'bounds',
  'onBound',
  'categoryHold',
  'categoryStop',
  'issuer',
  'place',
  'sites',
  'from',
  'to',
  'at',
  'timeZone',
  'limits',
  'days',
  'shiftFrom',
  'shiftTo',
  'holidays',
  'daylight',
  'lightUpAfterSunrise',
  'outBeforeSunset',
  'warmUp',
  'kindling',
  'burnDown',
  'cover',
  'shortestRun',
  'bearing',
  'within',
  'placeAt',
  'margin',
  'reach',
  'unsureBelow',
  'turnAtLeast',
  'turnAtLeastSpeed',
  'turnWithinHours',
  'warnAfter',
  'holdAfter',
  'alertsHoldAfter',
  'gustFactor',
  'gustSource',
  'role',
  'language',
  'units',
  'channel',
  'address',
  'quietFrom',
  'quietTo',
  'consentAt',
  'consentHow',
  'consentBy',
  'step',
] as const;
export type FieldName = (typeof FIELD_NAMES)[number];

export type SettingsKind = 'limits' | 'orders' | 'sites' | 'contacts';

export interface SettingsWords {
  readonly title: string;
  readonly kinds: Readonly<Record<SettingsKind, string>>;
  readonly one: Readonly<Record<SettingsKind, string>>;
  readonly intro: string;
  readonly lookOnly: string;
  readonly none: string;
  readonly addNew: Readonly<Record<SettingsKind, string>>;
  readonly fields: Readonly<Record<FieldName, string>>;
  readonly hints: Readonly<
    Record<'quantity' | 'source' | 'orderMoment' | 'at' | 'words' | 'monthDay' | 'idOf', string>
  >;
  readonly options: Readonly<Record<string, string>>;
  readonly groups: Readonly<
    Record<
      | 'clock'
      | 'season'
      | 'category'
      | 'limit'
      | 'shift'
      | 'daylight'
      | 'burn'
      | 'protected'
      | 'smoke'
      | 'turn'
      | 'age'
      | 'gust'
      | 'way'
      | 'quiet'
      | 'consent'
      | 'about',
      string
    >
  >;
  readonly add: string;
  readonly remove: string;
  readonly takeOut: string;
  readonly preview: string;
  readonly previewTitle: string;
  readonly whatChanges: string;
  readonly nothing: string;
  readonly weekTitle: string;
  readonly now: string;
  readonly after: string;
  readonly same: string;
  daysChange(changed: number, of: number): string;
  moreSites(count: number): string;
  readonly noSites: string;
  readonly noForecast: string;
  readonly newPlace: string;
  readonly siteGone: string;
  readonly siteNew: string;
  readonly save: string;
  readonly goOn: string;
  readonly saved: string;
  readonly faults: string;
  readonly meanwhile: string;
  inUse(by: string): string;
  burnsThere(burns: string): string;
  readonly noneBefore: string;
  readonly leftOut: string;
  readonly history: string;
  readonly fromFile: string;
  readonly fromHere: string;
  readonly wins: string;
  readonly kept: string;
  readonly optedOut: string;
  readonly mayText: string;
  readonly takenOut: string;
  readonly who: string;
  readonly live: string;
}

const WORDS: Readonly<Record<Language, SettingsWords>> = { en: settingsEnglish, es: settingsSpanish };

export const settingsWords = (language: Language): SettingsWords => WORDS[language];
