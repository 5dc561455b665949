// Messages of the Common Alerting Protocol, as they were published. An interface, so that publishing knows no store.

import type { AtomEntry } from '#publish/cap/atom.ts';
import type { Viewer } from './viewer.ts';

export interface CapDesk {
  /** Where the service is reached by others; null where nobody told. */
  readonly publicUrl: string | null;
  /** Messages that are in force or were until two days ago, newest first, of the sites that the viewer may see. */
  entries(viewer: Viewer): Promise<readonly AtomEntry[]>;
  /** The message itself, the same bytes for ever. Throws ServiceError `not_found`. */
  message(viewer: Viewer, identifier: string): Promise<string>;
}
