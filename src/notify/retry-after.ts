// The Retry-After header (RFC 9110, section 10.2.3): seconds, or a date. Capped: a text for now cannot wait for a day.

/** [ms] from now; null where it is absent or cannot be read. */
export function retryAfterMs(header: string | undefined, nowMs: number, mostMs: number): number | null {
  const text = header?.trim() ?? '';
  if (/^\d{1,9}$/.test(text)) return Math.min(Number(text) * 1000, mostMs);
  if (!/[A-Za-z]/.test(text)) return null;
  const atMs = Date.parse(text);
  return Number.isNaN(atMs) ? null : Math.min(Math.max(0, atMs - nowMs), mostMs);
}
