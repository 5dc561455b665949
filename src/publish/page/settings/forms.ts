// The kinds of definition that have pages: their forms, and what a new one and a new row begin with.

import type { SettingsKind } from '#publish/wording/settings-words.ts';
import { contactForm } from './contact-form.ts';
import type { FormMaker } from './form-maker.ts';
import { limitForm, NEW_LIMITS } from './limit-form.ts';
import { orderForm } from './order-form.ts';
import { siteForm } from './site-form.ts';

export const FORMS: Readonly<Record<SettingsKind, FormMaker>> = {
  limits: limitForm,
  orders: orderForm,
  sites: siteForm,
  contacts: contactForm,
};

export const NEW_BODIES: Readonly<Record<SettingsKind, unknown>> = {
  limits: [NEW_LIMITS.element],
  orders: { name: '', issuer: '', sites: [] },
  sites: { id: '', name: '', at: [], limits: '', shift: { days: [], from: '', to: '' } },
  contacts: { id: '', name: '', role: 'crew', ways: [{ channel: '', to: '' }] },
};

const NEW_ROWS: Readonly<Record<string, object>> = {
  ...NEW_LIMITS,
  way: { channel: '', to: '' },
  place: { name: '' },
  shift: { days: [], from: '', to: '' },
};

export const newRow = (kind: string): object | null =>
  Object.hasOwn(NEW_ROWS, kind) ? (NEW_ROWS[kind] ?? null) : null;

/** Keys that the form does not show. */
export const KEPT_KEYS: Readonly<Record<SettingsKind, readonly string[]>> = {
  limits: [],
  orders: ['kind', 'within'],
  sites: ['stations', 'alerts', 'watch', 'texts'],
  contacts: [],
};
