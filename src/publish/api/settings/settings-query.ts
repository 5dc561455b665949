// What the addresses of the settings may ask.

import { z } from 'zod';
import { pageQuery } from '#publish/api/query.ts';

export const settingsQuery = pageQuery.omit({ day: true });

/** `saved`: something was, just now. */
export const oneQuery = settingsQuery.extend({ saved: z.literal('1').optional() });
