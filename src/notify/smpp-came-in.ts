// Which texts of a gateway are ones that it brings again. SMPP gives them no names: one that we took, and whose acknowledgement
// was lost with the link or refused, comes again as if it were new; a "got it" would then count for whatever was told since.

import type { ChannelClock } from './channel.ts';

export interface CameIn {
  /** The name of a text: that of the one before where it is the same one, brought again, else `fresh`. */
  nameOf(content: string, link: object, fresh: string): string;
  /** It was kept, and is acknowledged on that link. */
  kept(content: string, link: object): void;
  /** What is called once the other side has answered something that was asked just now: it has read all that was sent before. */
  onceAnswered(link: object): () => void;
}

interface Text {
  readonly name: string;
  readonly atMs: number;
  /** On which it was acknowledged; null while it is not. */
  readonly link: object | null;
}

/** A gateway brings again what it was not acknowledged at its next bind, or soon. Ours: no source. */
const AGAIN_WITHIN_MS = 3_600_000;
const MOST = 10_000;

export function createCameIn({ nowMs }: Pick<ChannelClock, 'nowMs'>): CameIn {
  const texts = new Map<string, Text>();
  const keep = (content: string, text: Text): void => {
    texts.delete(content);
    texts.set(content, text);
    if (texts.size > MOST) texts.delete(texts.keys().next().value ?? '');
  };
  return {
    nameOf(content, link, fresh) {
      const known = texts.get(content);
      const isAgain = known !== undefined && known.link !== link && nowMs() - known.atMs <= AGAIN_WITHIN_MS;
      const name = isAgain ? known.name : fresh;
      keep(content, { name, atMs: nowMs(), link: null });
      return name;
    },
    kept(content, link) {
      const known = texts.get(content);
      if (known) keep(content, { ...known, link });
    },
    onceAnswered(link) {
      const sent = [...texts].filter(([, text]) => text.link === link);
      return () => {
        for (const [content, text] of sent) if (texts.get(content) === text) texts.delete(content);
      };
    },
  };
}
