// Tells this process that a transaction of its own has added events. Those of other processes are found by asking.

const eventful = new WeakSet<object>();

/** To be called by whoever adds events within it. */
export const addsEvents = (transaction: object): void => void eventful.add(transaction);

export interface EventSignal {
  /** Gives back what stops it. */
  on(added: () => void): () => void;
  /** Tells once `work` is over, where the transaction that it has shown added events. */
  around<T>(work: (seen: (transaction: object) => void) => Promise<T>): Promise<T>;
}

export function createEventSignal(): EventSignal {
  const listeners = new Set<() => void>();
  return {
    on(added) {
      listeners.add(added);
      return () => void listeners.delete(added);
    },
    async around(work) {
      let shown: object | null = null;
      const outcome = await work((transaction) => {
        shown = transaction;
      });
      if (shown !== null && eventful.has(shown)) for (const added of listeners) added();
      return outcome;
    },
  };
}
