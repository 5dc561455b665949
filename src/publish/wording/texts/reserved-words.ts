// Words that carriers, gateways and the law take for "send me nothing more", "send again" or "what is this". A text of ours
// has none of them, so that nobody learns to send one; one that comes in is never taken for an answer.
// Sources, read in November 2026:
// [law] 47 CFR 64.1200(a)(10): stop, quit, end, revoke, opt out, cancel, unsubscribe, and whatever a reasonable person would
// read so, in other languages too. [aws] docs.aws.amazon.com/sms-voice/latest/userguide/keywords-required.html.
// [braze] braze.com/docs, opt-in and opt-out keywords. [twilio-es] twilio.com/help, requirements for a Spanish-language short
// code: ALTO, AYUDA. [textizen] support.textizen.com/article/92-reserved-keywords: ALTO, INICIO, AUXILIO. [aivo]
// helpaivoes.aivohelp.com, opt-out: detener, parar, desuscribir, baja, cancelar, iniciar, suscribir. [notifycame]
// notifycame.com/page/funciones-de-sms: parar, cancelar, baja; comenzar, suscribirme, alta, si. [practice] common practice,
// no source.

/** In small letters without accents. */
export const OPT_OUT_WORDS: readonly string[] = [
  'stop', // law, aws, braze
  'stopall', // braze
  'stopp', // practice, German
  'quit', // law, aws, braze
  'end', // law, aws, braze
  'revoke', // law
  'optout', // aws
  'opt-out', // aws
  'opt out', // law
  'cancel', // law, aws, braze
  'unsubscribe', // law, aws, braze
  'remove', // aws
  'arret', // aws, French
  'td', // aws
  'alto', // twilio-es, textizen
  'baja', // aivo, notifycame
  'cancelar', // aivo, notifycame
  'detener', // aivo
  'parar', // aivo, notifycame; Portuguese too
  'pare', // practice
  'desuscribir', // aivo
  'salir', // practice
  'fin', // practice, French too
  'no mas', // practice
  'sair', // practice, Portuguese
  'abmelden', // practice, German
];

export const OPT_IN_WORDS: readonly string[] = [
  'start', // aws, braze
  'unstop', // aws, braze
  'yes', // braze
  'optin', // practice
  'opt-in', // practice
  'opt in', // practice
  'subscribe', // practice
  'inicio', // textizen
  'iniciar', // aivo
  'comenzar', // notifycame
  'suscribir', // aivo
  'suscribirme', // notifycame
  'alta', // notifycame
  'si', // notifycame
];

export const HELP_WORDS: readonly string[] = [
  'help', // aws, braze
  'info', // aws, braze
  'ayuda', // twilio-es
  'auxilio', // textizen
];

const ALL = [...OPT_OUT_WORDS, ...OPT_IN_WORDS, ...HELP_WORDS];

/** As it is compared: small letters, no accents, full-width letters plain, what joins words a blank. */
export const foldWords = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[\p{M}\p{Cf}]/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}-]+/gu, ' ')
    .trim();

/** The first reserved word that stands in the text as a word of its own; null where there is none. */
export function reservedWordIn(text: string): string | null {
  // A hyphen joins as well as parts: "opt-out" is listed, and "End-Road" still has "end" in it.
  const folded = foldWords(text);
  const apart = ` ${folded} ${folded.replaceAll('-', ' ')} `;
  return ALL.find((word) => apart.includes(` ${word} `)) ?? null;
}
