/** A field of a definition as it was written, whatever that is. */
export const fieldOf = (body: unknown, name: string): unknown =>
  typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
