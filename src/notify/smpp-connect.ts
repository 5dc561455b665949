// The package for SMPP, loaded at the first session: few services have a gateway of this kind, and all would start later.

import { createRequire } from 'node:module';
import type { connect } from 'smpp';

const load = createRequire(import.meta.url);

export const connectSmpp: typeof connect = (options) =>
  (load('smpp') as { connect: typeof connect }).connect(options);
