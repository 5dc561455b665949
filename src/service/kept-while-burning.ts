// What a configuration file would take out while a pit burns there. To refuse the file would end the watch of every fire at
// the next start, and to take the site out the watch of this one: it stays in force until a start after the cover.

import { siteKey } from '#memory/definition-book.ts';
import type { Definition } from '#store/definition.ts';
import type { WatchRecords } from '#store/watch/records.ts';
import { fieldOf } from './field-of.ts';
import type { WrittenDefinition } from './written-definitions.ts';

type Named = Pick<Definition, 'kind' | 'id'>;
const nameOf = ({ kind, id }: Named): string => `${kind} ${id}`;

/** What stays as it is, by its name, with the line that says why: sites with an open burn, and what they are judged and told by. */
export async function keptWhileBurning(
  watch: Pick<WatchRecords, 'openBurns'>,
  organisation: string,
  rows: readonly Definition[],
  written: readonly WrittenDefinition[],
): Promise<ReadonlyMap<string, string>> {
  const after = new Map(written.map((one) => [nameOf(one), one.body]));
  const dropped = rows.filter(
    (row) => row.kind === 'site' && row.origin === 'file' && row.body !== null && !after.has(nameOf(row)),
  );
  if (dropped.length === 0) return new Map();
  const burns = await watch.openBurns(dropped.map(({ id }) => siteKey(organisation, id)));
  const kept = new Map<string, string>();
  for (const site of dropped) {
    const open = burns.filter((burn) => burn.site === siteKey(organisation, site.id)).map(({ id }) => id);
    if (open.length === 0) continue;
    const name = nameOf(site);
    kept.set(
      name,
      `= ${name} stays: a pit still burns there (burn ${open.join(', ')}); a start after its cover takes it out`,
    );
    for (const row of rows.filter((one) => isLost(one, after, site)))
      kept.set(nameOf(row), `= ${nameOf(row)} stays as it is for ${name}, where a pit still burns`);
  }
  return kept;
}

/** True of the limit set of a site, and of its contacts and orders, where the file has them no more or not for this site. */
function isLost(row: Definition, after: ReadonlyMap<string, unknown>, site: Definition): boolean {
  const body = after.get(nameOf(row)) ?? null;
  if (row.body === null) return false;
  if (row.kind === 'limit-set') return body === null && fieldOf(site.body, 'limits') === row.id;
  return row.kind !== 'site' && names(row.body, site.id) && (body === null || isOfOthers(body, site.id));
}

const names = (body: unknown, site: string): boolean => {
  const sites = fieldOf(body, 'sites');
  return Array.isArray(sites) && sites.includes(site);
};

/** What names no sites is of all. */
const isOfOthers = (body: unknown, site: string): boolean =>
  Array.isArray(fieldOf(body, 'sites')) && !names(body, site);
