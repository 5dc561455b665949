// What a configuration without a fault says that cannot be meant: told where it is checked or goes into force, and it does.

import type { ConfigFault } from './load.ts';
import type { Config } from './schema.ts';

/** Names that lead nowhere and belong to nobody: RFC 2606, sections 2 and 3; RFC 6761, section 6. */
const NOBODYS_NAME =
  /(?:^|@|\/\/)(?:[^\s/@]*\.)?(?:example(?:\.(?:com|net|org))?|test|invalid|localhost)\.?(?:[:/?#>\s]|$)/i;

export const doubtsOf = ({ contact }: Pick<Config, 'contact'>): readonly ConfigFault[] =>
  NOBODYS_NAME.test(contact)
    ? [
        {
          path: 'contact',
          message: `"${contact}" is an address of examples: the source of the forecast cannot reach you by it before it shuts you out`,
        },
      ]
    : [];

/** One line each. */
export const doubtLines = (config: Pick<Config, 'contact'>): readonly string[] =>
  doubtsOf(config).map(({ path, message }) => `Warning: ${path}: ${message}`);
