// Words of the pages by which people sign in with a personal link, and out again.

import type { Language } from './show.ts';

export type SignInRole = 'crew' | 'office' | 'dispatch' | 'admin';

export interface SignInWords {
  /** Heading of the page to which a link leads. */
  linkFor(name: string): string;
  readonly roles: Readonly<Record<SignInRole, string>>;
  readonly allSites: string;
  readonly until: string;
  readonly button: string;
  readonly once: string;
  readonly unknown: string;
  readonly askOffice: string;
  readonly needed: string;
  readonly openLink: string;
  readonly paste: string;
  readonly keyField: string;
  readonly keyButton: string;
  readonly forPrograms: string;
  readonly nobody: string;
  signedInAs(name: string): string;
  readonly signOut: string;
  readonly signedOut: string;
  readonly lostPhone: string;
  readonly toSites: string;
  readonly open: string;
  /** In the foot of every page. */
  readonly who: string;
}

const english: SignInWords = {
  linkFor: (name) => `This link is for ${name}`,
  roles: { crew: 'crew', office: 'office', dispatch: 'dispatch', admin: 'may change settings' },
  allSites: 'all sites',
  until: 'until',
  button: 'Sign in on this phone',
  once: 'Press once. This phone then stays signed in. Keep the link to yourself: whoever has it signs in as you.',
  unknown: 'This link does not work',
  askOffice: 'It may be mistyped, past its end, or taken back. Ask the office for a new link.',
  needed: 'Sign in first',
  openLink: 'Open the personal link that the office sent you, on this phone, and press its button.',
  paste: 'No link? Ask the office for one. It comes as a text or a mail, and needs no password.',
  keyField: 'Or put your link, or your key, in here',
  keyButton: 'Sign in',
  forPrograms:
    'Programs send their key with each request: as a Bearer token, or as the password of HTTP Basic.',
  nobody: 'Nobody is signed in on this phone.',
  signedInAs: (name) => `Signed in as ${name}`,
  signOut: 'Sign out on this phone',
  signedOut: 'This phone is signed out.',
  lostPhone: 'A phone is lost? Tell the office: it ends the link, and the phone is out within seconds.',
  toSites: 'To the sites',
  open: 'No key is asked for here: this service answers this machine alone.',
  who: 'Who is signed in',
};

const spanish: SignInWords = {
  linkFor: (name) => `Este enlace es para ${name}`,
  roles: { crew: 'cuadrilla', office: 'oficina', dispatch: 'despacho', admin: 'puede cambiar los ajustes' },
  allSites: 'todos los sitios',
  until: 'hasta el',
  button: 'Entrar en este teléfono',
  once: 'Pulse una vez. Este teléfono queda conectado. No comparta el enlace: quien lo tiene entra como usted.',
  unknown: 'Este enlace no sirve',
  askOffice: 'Puede estar mal escrito, vencido o anulado. Pida un enlace nuevo a la oficina.',
  needed: 'Primero hay que entrar',
  openLink: 'Abra en este teléfono el enlace personal que le mandó la oficina y pulse su botón.',
  paste: '¿No tiene enlace? Pídalo a la oficina. Llega por mensaje o por correo y no lleva contraseña.',
  keyField: 'O ponga aquí su enlace o su clave',
  keyButton: 'Entrar',
  forPrograms:
    'Los programas mandan su clave en cada petición: como Bearer, o como contraseña de HTTP Basic.',
  nobody: 'Nadie ha entrado en este teléfono.',
  signedInAs: (name) => `Ha entrado ${name}`,
  signOut: 'Salir en este teléfono',
  signedOut: 'Este teléfono ya no está conectado.',
  lostPhone:
    '¿Se perdió un teléfono? Avise a la oficina: anula el enlace y el teléfono queda fuera en segundos.',
  toSites: 'A los sitios',
  open: 'Aquí no se pide clave: este servicio responde solo a esta máquina.',
  who: 'Quién ha entrado',
};

const WORDS: Readonly<Record<Language, SignInWords>> = { en: english, es: spanish };

export const signInWords = (language: Language): SignInWords => WORDS[language];

const FORMATS = new Map<Language, Intl.DateTimeFormat>();

/** "November 30, 2027": a key may last longer than a year. */
export function longDate(date: string, language: Language): string {
  const format =
    FORMATS.get(language) ??
    new Intl.DateTimeFormat(language === 'es' ? 'es-US' : 'en-US', { dateStyle: 'long', timeZone: 'UTC' });
  FORMATS.set(language, format);
  return format.format(new Date(`${date}T12:00:00Z`));
}
