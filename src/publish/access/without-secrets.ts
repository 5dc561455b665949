// The last sieve before a text leaves for a log or a caller: what has the shape of a secret does not pass. The first is to
// tell only what is listed; this one is for what slips through, such as the message of a fault that is not ours.

/** Values of other query parameters say who, not where. */
const OPEN_PARAMETERS = new Set(['point', 'zone', 'area', 'limit', 'units', 'day', 'lang', 'status']);

/**
 * Keys of ours, credentials and parameters of addresses, Authorization as it is sent, e-mail addresses, phone numbers.
 * Repetitions are bounded where a long text could else be searched again from each of its characters.
 */
export function withoutSecrets(text: string): string {
  return (
    text
      .replaceAll(/pw_([a-z2-9]{8})_[A-Za-z0-9_-]{20,}/g, 'pw_$1_-')
      // A password may hold what should have been written otherwise, and so end at the last @ only.
      .replaceAll(/\b(?!file:)([a-z][a-z0-9+.-]{0,20}:\/\/)[^\s"\\]{0,300}@/gi, '$1-@')
      // A word of a sentence has small letters only.
      .replaceAll(/\b([Bb]asic|[Bb]earer) +(?=[^\s"]*[A-Z0-9=])[A-Za-z0-9._~+/=-]{6,}/g, '$1 -')
      .replaceAll(/([?&])([\w.-]+)=[^&\s"'\\#]+/g, (whole, mark: string, name: string) =>
        OPEN_PARAMETERS.has(name) ? whole : `${mark}${name}=-`,
      )
      .replaceAll(/\w[\w.+-]{0,63}@(?:[a-z0-9-]{1,63}\.){1,9}[a-z]{2,}\b/gi, '-@-')
      .replaceAll(/\+\d{6,13}(\d\d)\b/g, '+-$1')
  );
}
