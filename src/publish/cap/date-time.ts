// Instants as the standard has them (CAP 1.2, 3.3.2): whole seconds and an offset in digits; UTC is -00:00.

import { rfc3339 } from '#core/units/local-time.ts';

export const capDateTime = (ms: number, timeZone: string): string =>
  rfc3339(ms, timeZone).replace(/(Z|\+00:00)$/, '-00:00');
