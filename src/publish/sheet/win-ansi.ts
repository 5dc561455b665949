// Text for the standard fonts of PDF, which know the letters of Windows code page 1252 (ISO 32000-1, annex D.2) and no others.

/** What the code page has beyond Latin-1, where that has control characters. */
const BEYOND = new Set('€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ');

const isKnown = (sign: string): boolean =>
  (sign >= ' ' && sign <= '~') || (sign >= '\u00a0' && sign <= 'ÿ') || BEYOND.has(sign);

/** A letter that is not there loses its accent; what is none without it becomes a question mark. */
export const winAnsi = (text: string): string =>
  [...text.normalize('NFC').replaceAll(/\s/g, ' ')]
    .map((sign) => {
      if (isKnown(sign)) return sign;
      const bare = sign.normalize('NFD').replaceAll(/\p{M}/gu, '');
      return bare !== '' && [...bare].every(isKnown) ? bare : '?';
    })
    .join('');
