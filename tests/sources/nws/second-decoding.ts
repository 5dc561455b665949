// A second decoding of the raw grid, written straight from the service's documentation and apart from the one under
// test: Temporal for the intervals, its own units, plain loops. Slow, and meant to be.

interface Quantity {
  readonly uom?: string;
  readonly values: readonly { readonly validTime: string; readonly value: number | null }[];
}

export type Properties = Readonly<Record<string, Quantity>> & { readonly validTimes: string };

/** Metric value of a reading: m/s, m, mm, °C, % or degrees. */
function metric(value: number, uom: string | undefined): number {
  if (uom === undefined) return value;
  if (uom === 'wmoUnit:km_h-1') return (value * 1000) / 3600;
  if (['unit:m_s-1', 'unit:m', 'unit:mm', 'unit:degC', 'unit:percent', 'unit:degree_(angle)'].includes(uom))
    return value;
  if (/^wmoUnit:(m|mm|degC|percent|degree_\(angle\))$/.test(uom)) return value;
  throw new Error(`a unit that the documentation does not name: ${uom}`);
}

function spanOf(text: string): [Temporal.Instant, Temporal.Instant] {
  const [start, length] = text.split('/') as [string, string];
  const from = Temporal.Instant.from(start);
  return [from, from.add({ hours: Temporal.Duration.from(length).total('hours') })];
}

/** First hour and number of hours of the document. */
export function documentHours(properties: Properties): { start: Temporal.Instant; hours: number } {
  const [start, end] = spanOf(properties.validTimes);
  return { start, hours: start.until(end).total('hours') };
}

/** Value of each hour of a layer; null where no interval covers it or its value is null. */
export function hourlyValues(properties: Properties, name: string, isAmount: boolean): (number | null)[] {
  const { start, hours } = documentHours(properties);
  const layer = properties[name];
  const result = Array<number | null>(hours).fill(null);
  for (const { validTime, value } of layer?.values ?? []) {
    const [from, to] = spanOf(validTime);
    const length = from.until(to).total('hours');
    for (let hour = from; Temporal.Instant.compare(hour, to) < 0; hour = hour.add({ hours: 1 })) {
      const index = start.until(hour).total('hours');
      if (!Number.isInteger(index)) throw new Error(`an hour off the grid: ${hour}`);
      if (index < 0 || index >= hours || value === null) continue;
      result[index] = metric(value, layer?.uom) / (isAmount ? length : 1);
    }
  }
  return result;
}
