// What was written, whatever shape it has.

export const recordOf = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {};

export const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);
