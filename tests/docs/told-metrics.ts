// What an answer of /metrics tells (Prometheus text format 0.0.4), what docs/metrics.md tells of it, and what rules ask for.

export interface Metric {
  readonly type: string;
  readonly labels: readonly string[];
  readonly help: string;
  readonly samples: number;
}

/** Names of samples of a histogram → its own name. */
const familyOf = (name: string, types: ReadonlyMap<string, string>): string => {
  const bare = name.replace(/_(?:bucket|sum|count)$/, '');
  return types.get(bare) === 'histogram' ? bare : name;
};

export function liveMetrics(text: string): Map<string, Metric> {
  const types = new Map(
    [...text.matchAll(/^# TYPE (\S+) (\S+)$/gm)].map(([, name = '', type = '']) => [name, type]),
  );
  const helps = new Map(
    [...text.matchAll(/^# HELP (\S+) (.+)$/gm)].map(([, name = '', help = '']) => [name, help]),
  );
  const labels = new Map<string, Set<string>>();
  const samples = new Map<string, number>();
  for (const line of text.split('\n')) {
    if (line === '' || line.startsWith('#')) continue;
    const [, name = '', inner = ''] = /^([a-z_]+)(?:\{(.*)\})? -?[0-9.e+-]+$/.exec(line) ?? [];
    if (name === '') throw new Error(`no sample: ${line}`);
    const family = familyOf(name, types);
    const own = labels.get(family) ?? new Set();
    for (const [, label = ''] of inner.matchAll(/([a-z_]+)="/g)) if (label !== 'le') own.add(label);
    labels.set(family, own);
    samples.set(family, (samples.get(family) ?? 0) + 1);
  }
  return new Map(
    [...types].map(([name, type]) => {
      const own = [...(labels.get(name) ?? [])].sort();
      return [name, { type, labels: own, help: helps.get(name) ?? '', samples: samples.get(name) ?? 0 }];
    }),
  );
}

/** Rows `| \`name\` | type | \`label\`, … | meaning |`. */
export function documentedMetrics(markdown: string): Map<string, Omit<Metric, 'samples'>> {
  const rows = markdown.matchAll(/^\| `([a-z_]+)` \| (\w+) \|([^|]*)\| ([^|]+) \|$/gm);
  return new Map(
    [...rows].map(([, name = '', type = '', labels = '', help = '']) => [
      name,
      { type, labels: [...labels.matchAll(/`(\w+)`/g)].map(([, label = '']) => label).sort(), help },
    ]),
  );
}

export interface Asked {
  readonly metric: string;
  readonly labels: readonly string[];
}

/** Metrics that an expression asks for, each with the labels that it matches. */
export function askedFor(expression: string): Asked[] {
  return [...expression.matchAll(/\b(up|(?:pitward|process|nodejs)_[a-z_]+)\b(?:\{([^}]*)\})?/g)].map(
    ([, metric = '', inner = '']) => ({
      metric,
      labels: [...inner.matchAll(/([a-z_]+) *(?:=~|!=|!~|=)/g)].map(([, label = '']) => label),
    }),
  );
}

/** Labels by which an expression gathers: `sum by (instance, le)`, `without (held)`. */
export const gatheredBy = (expression: string): string[] =>
  [...expression.matchAll(/\b(?:by|without|ignoring|on) *\(([^)]*)\)/g)].flatMap(([, inner = '']) =>
    inner.split(',').map((label) => label.trim()),
  );
