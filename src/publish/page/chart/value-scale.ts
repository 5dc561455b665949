// Where a value lies in the height of a lane: larger is higher.

export interface ValueScale {
  readonly least: number;
  readonly most: number;
  /** [px from the top]; values outside of what the scale was made for lie on the edge. */
  y(value: number): number;
}

export interface Height {
  /** Room that the smallest and the largest value leave free [px]. */
  readonly pad: number;
  readonly height: number;
}

/** Holds all values and bounds; a scale of one value alone has it in the middle. */
export function valueScale(shown: readonly number[], { pad, height }: Height): ValueScale {
  const least = Math.min(...shown);
  const most = Math.max(...shown);
  const y = (value: number): number => {
    if (most === least) return height / 2;
    const part = (Math.min(most, Math.max(least, value)) - least) / (most - least);
    return Math.round((height - pad - part * (height - 2 * pad)) * 10) / 10;
  };
  return { least, most, y };
}
