// The pits of a board → what its map draws of them.

import type { MapPin } from '#publish/map/board-map.ts';
import type { BoardSite, BoardView } from '#publish/page/board/board-view.ts';
import { wordOf } from '#publish/page/mark.ts';
import { liveMark } from '#publish/page/with-live.ts';
import type { SmokeAnswer } from '#publish/wire-smoke.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';

interface Row {
  readonly pin: string;
  readonly site: BoardSite;
  readonly live: NowAnswer | null;
  readonly smoke: SmokeAnswer;
}

export function pinsOfBoard(
  { burns, goes }: Pick<BoardView, 'burns' | 'goes'>,
  language: Language,
): MapPin[] {
  const words = wordsFor(language);
  return [...burns, ...goes].map(({ pin, site, live, smoke }: Row): MapPin => {
    const mark = live === null ? 'unsaid' : liveMark(live);
    const [latDeg, lonDeg] = site.at;
    const { toward, halfWidth } = smoke;
    return {
      pin,
      name: site.name,
      place: { latDeg, lonDeg },
      mark,
      word: wordOf(mark, words),
      smoke: toward === null || halfWidth === null ? null : { towardDeg: toward, halfWidthDeg: halfWidth },
    };
  });
}
