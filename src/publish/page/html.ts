// Text → HTML. Everything that goes into a template is escaped, but for what another template made. No tag is known here.

const MARKUP = Symbol('markup');

/** HTML that came out of a template, never out of data: JSON cannot carry the symbol. */
export interface Markup {
  readonly [MARKUP]: string;
}

export type Piece = Markup | string | number | null | readonly Piece[];

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Safe both between tags and inside of a quoted attribute. */
export const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (sign) => ESCAPES[sign] ?? '');

/** Template tag: pieces are escaped, lists are joined, null is nothing. Attributes must be quoted. */
export function html(parts: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  const text = parts.map((part, i) => part + (i < pieces.length ? textOf(pieces[i] ?? null) : '')).join('');
  return { [MARKUP]: text };
}

/** For constants of this folder only (the style sheet, the shapes). */
export const trusted = (text: string): Markup => ({ [MARKUP]: text });

export function textOf(piece: Piece): string {
  if (piece === null) return '';
  if (typeof piece === 'string') return escapeHtml(piece);
  if (typeof piece === 'number') return String(piece);
  if (isList(piece)) return piece.map(textOf).join('');
  return piece[MARKUP];
}

const isList = (piece: Markup | readonly Piece[]): piece is readonly Piece[] => Array.isArray(piece);
