// A page as somebody reads it without style: its words. Also its rows. No test in here.

/** Visible words of a page, tags and style gone, entities read. */
export function wordsOf(page: string): string {
  return page
    .replace(/<style>.*?<\/style>/gs, ' ')
    .replace(/<title>.*?<\/title>/gs, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');
}

/** The words of the first element of a class, up to the next tag that closes `end`. */
export function partOf(page: string, begin: string, end: string): string {
  const from = page.indexOf(begin);
  if (from < 0) throw new Error(`no ${begin} on the page`);
  return wordsOf(page.slice(from, page.indexOf(end, from)));
}

export const answerOf = (page: string): string => partOf(page, '<section class="call', '</section>');
export const timesOf = (page: string): string => partOf(page, '<ol class="times', '</ol>');
export const ageOf = (page: string): string => partOf(page, '<p class="age', '</p>');

export const hasWord = (text: string, word: string): boolean =>
  new RegExp(`(^|[^\\p{L}])${word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}($|[^\\p{L}])`, 'u').test(text);
