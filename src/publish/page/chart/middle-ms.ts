// The value of an hour stands in the middle of its hour.

import { HOUR_MS } from '#core/units/time.ts';

export const middleMs = ({ fromMs }: { readonly fromMs: number }): number => fromMs + HOUR_MS / 2;
