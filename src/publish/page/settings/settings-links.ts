// Addresses of the settings.

import type { Query } from '#publish/page/links.ts';
import type { SettingsKind } from '#publish/wording/settings-words.ts';

const CHOICES = ['lang', 'units', 'look'];

function choicesOf(query: Query): string {
  const kept = CHOICES.flatMap((key): [string, string][] =>
    query[key] === undefined ? [] : [[key, query[key]]],
  );
  return kept.length === 0 ? '' : `?${new URLSearchParams(kept)}`;
}

export const settingsLink = (query: Query): string => `/settings${choicesOf(query)}`;

/** The form of a new one; what is typed is sent to the same address. */
export const kindLink = (kind: SettingsKind, query: Query): string => `/settings/${kind}${choicesOf(query)}`;

export const oneLink = (kind: SettingsKind, id: string, query: Query): string =>
  `/settings/${kind}/${encodeURIComponent(id)}${choicesOf(query)}`;

export const saveLink = (kind: SettingsKind, query: Query): string =>
  `/settings/${kind}/save${choicesOf(query)}`;

export const weekLink = (query: Query): string => `/settings/limits/week${choicesOf(query)}`;

export const SCRIPT_LINK = '/settings/live.js';
