// Calls that come while one is being written are written together in the next transaction: waiting for the disk is what a
// small transaction costs. Each call stands or falls by itself.

import { sql, type Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { Tables } from '#store/tables.ts';

/** So many at most: whoever comes next is not to wait for long. */
const MOST_TOGETHER = 64;

interface Call<A, R> {
  readonly what: A;
  resolve(result: R): void;
  reject(fault: unknown): void;
}

type Outcome<R> = { readonly result: R } | { readonly fault: ServiceError };

/** One transaction for some calls; `resultOf` gives the result of one of them, null where it was refused. */
type Writing<A, R> = <T>(
  calls: readonly A[],
  run: (transaction: Transaction<Tables>) => Promise<T>,
  resultOf: (outcome: T, i: number) => R | null,
) => Promise<T>;

export function together<A, R>(
  writing: Writing<A, R>,
  write: (transaction: Transaction<Tables>, what: A) => Promise<R>,
): (what: A) => Promise<R> {
  let waiting: Call<A, R>[] = [];
  let isBusy = false;
  const alone = (call: Call<A, R>): Promise<void> =>
    writing(
      [call.what],
      (transaction) => write(transaction, call.what),
      (result) => result,
    ).then(call.resolve, call.reject);
  const asOne = async (calls: readonly Call<A, R>[]): Promise<void> => {
    const outcomes = await writing(
      calls.map(({ what }) => what),
      async (transaction) => {
        const all: Outcome<R>[] = [];
        for (const { what } of calls) all.push(await guarded(transaction, () => write(transaction, what)));
        return all;
      },
      (all, i) => resultOf(all[i]),
    );
    for (const [i, call] of calls.entries()) {
      const outcome = outcomes[i] as Outcome<R>;
      if ('result' in outcome) call.resolve(outcome.result);
      else call.reject(outcome.fault);
    }
  };
  const turn = async (): Promise<void> => {
    isBusy = true;
    while (waiting.length > 0) {
      const calls = waiting.slice(0, MOST_TOGETHER);
      waiting = waiting.slice(MOST_TOGETHER);
      const [only] = calls;
      if (calls.length === 1 && only) await alone(only);
      // Whose fault it was is not known: each is tried by itself.
      else await asOne(calls).catch(() => Promise.all(calls.map(alone)));
    }
    isBusy = false;
  };
  return (what) =>
    new Promise((resolve, reject) => {
      waiting.push({ what, resolve, reject });
      if (!isBusy) void turn();
    });
}

const resultOf = <R>(outcome: Outcome<R> | undefined): R | null =>
  outcome !== undefined && 'result' in outcome ? outcome.result : null;

/** What is refused leaves nothing behind; any other fault is the whole transaction's. */
async function guarded<R>(transaction: Transaction<Tables>, run: () => Promise<R>): Promise<Outcome<R>> {
  await sql`savepoint one`.execute(transaction);
  try {
    const result = await run();
    await sql`release one`.execute(transaction);
    return { result };
  } catch (fault) {
    if (!(fault instanceof ServiceError)) throw fault;
    await sql`rollback to one`.execute(transaction);
    await sql`release one`.execute(transaction);
    return { fault };
  }
}
