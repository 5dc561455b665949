// A memory of limited size: what was not used for longest goes first.

export interface LastUsed<T> {
  get(key: string): T | undefined;
  set(key: string, value: T): void;
}

export function createLastUsed<T>(most: number): LastUsed<T> {
  const kept = new Map<string, T>();
  const put = (key: string, value: T): void => {
    kept.delete(key);
    kept.set(key, value);
  };
  return {
    get(key) {
      const value = kept.get(key);
      if (value !== undefined) put(key, value);
      return value;
    },
    set(key, value) {
      put(key, value);
      const oldest = kept.keys().next();
      if (kept.size > most && !oldest.done) kept.delete(oldest.value);
    },
  };
}
