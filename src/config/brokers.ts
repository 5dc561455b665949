// MQTT brokers as the operator writes them. Secrets are named by the environment variables that hold them, and no message
// repeats what was written here: it may be a secret in the wrong place.

import { z } from 'zod';
import type { BrokerSettings } from '#core/watch/station-source.ts';
import { definitionId } from './fields.ts';
import { isLoopback } from './listen.ts';

const variable = z
  .string('expected the name of an environment variable, such as FARM_PASSWORD')
  .regex(/^[A-Z][A-Z0-9_]{0,99}$/, 'expected the name of an environment variable, such as FARM_PASSWORD');

const address = z
  .string('expected an address such as mqtts://broker.example:8883')
  .superRefine((text, context) => {
    const odd = (message: string) => context.addIssue({ code: 'custom', message });
    const url = URL.parse(text);
    if (url === null || !/^mqtts?:$/.test(url.protocol) || url.hostname === '') {
      odd('expected an address such as mqtts://broker.example:8883');
      return;
    }
    if (url.username !== '' || url.password !== '') {
      odd('expected no login in the address; name it with usernameFrom and passwordFrom');
    }
    if (!/^\/?$/.test(url.pathname) || url.search !== '' || url.hash !== '') {
      odd('expected nothing behind the port');
    }
  });

const broker = z
  .strictObject({
    id: definitionId,
    url: address,
    usernameFrom: variable.optional(),
    passwordFrom: variable.optional(),
    /** Holds the certificates to believe, in PEM. */
    certificatesFrom: variable.optional(),
  })
  .superRefine(({ url, passwordFrom, certificatesFrom }, context) => {
    const parsed = URL.parse(url);
    if (parsed === null || parsed.protocol === 'mqtts:') return;
    const odd = (key: string, message: string) => context.addIssue({ code: 'custom', path: [key], message });
    if (certificatesFrom !== undefined) odd('certificatesFrom', 'is for mqtts://');
    if (passwordFrom !== undefined && !isLoopback(parsed.hostname)) {
      odd('passwordFrom', 'a password goes over mqtts:// only');
    }
  })
  .transform(
    (told): BrokerSettings => ({
      id: told.id,
      url: told.url,
      usernameFrom: told.usernameFrom ?? null,
      passwordFrom: told.passwordFrom ?? null,
      certificatesFrom: told.certificatesFrom ?? null,
    }),
  );

export const brokerList = z.array(broker).superRefine((brokers, context) => {
  const ids = brokers.map(({ id }) => id);
  for (const [i, id] of ids.entries()) {
    if (ids.indexOf(id) < i)
      context.addIssue({ code: 'custom', path: [i, 'id'], message: `a second broker "${id}"` });
  }
});
