// Two bodies of one definition → lines that a person can read: `[1].atMost.hold: 20 mph -> 22 mph`.

/** One line for each value that differs, in the order of the newer body. */
export function bodyDifference(before: unknown, now: unknown, path = ''): string[] {
  if (isBranch(before) && isBranch(now) && Array.isArray(before) === Array.isArray(now)) {
    const keys = new Set([...Object.keys(now), ...Object.keys(before)]);
    return [...keys].flatMap((key) =>
      bodyDifference(
        (before as Record<string, unknown>)[key],
        (now as Record<string, unknown>)[key],
        Array.isArray(now) ? `${path}[${key}]` : `${path === '' ? '' : `${path}.`}${key}`,
      ),
    );
  }
  const [was, is] = [shown(before), shown(now)];
  return was === is ? [] : [`${path === '' ? '(whole)' : path}: ${was} -> ${is}`];
}

const isBranch = (value: unknown): value is object => typeof value === 'object' && value !== null;

const shown = (value: unknown): string => {
  if (value === undefined) return 'none';
  return typeof value === 'string' ? value : JSON.stringify(value);
};
