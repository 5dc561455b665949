// Which of several pits of a site, in the words of the texts: the one that was lit at such a time.

import { pitLit } from '#core/watch/pit-lit.ts';
import type { BurnAnswer } from '#publish/wire-watch.ts';
import { glanceWords } from '#publish/wording/glance-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { momentAt, msOf } from './moments.ts';

type Lit = Pick<BurnAnswer, 'id' | 'litAt' | 'openedAt'>;

/** `all`: those that it could be taken for, itself among them. */
export function pitWords(
  burn: Lit,
  all: readonly Lit[],
  timeZone: string,
  asOf: string,
  language: Language,
): string {
  const asBurn = ({ id, litAt, openedAt }: Lit) => ({
    id,
    litAtMs: litAt === null ? null : msOf(litAt),
    openedAtMs: msOf(openedAt),
  });
  const { nth } = pitLit(asBurn(burn), all.map(asBurn));
  return glanceWords(language).burnOf(momentAt(burn.litAt ?? burn.openedAt, timeZone, language, asOf), nth);
}
