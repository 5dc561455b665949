// node bench/grib-fuzz.ts [messages] [seed]: GRIB2 messages with faults, read by both kernels; ends with what they cost.

import { FUZZ_LIMITS, mutated, Reader, randomOf, soundMessages } from '../tests/sources/grib/mutate.ts';
import { line, note } from './measure.ts';

const messages = Number(process.argv[2] ?? 1_000_000);
const seed = Number(process.argv[3] ?? 1);
const random = randomOf(seed);
const sound = soundMessages(seed, 300);
const reader = new Reader();
const before = performance.now();
const heapBefore = process.memoryUsage.rss();
for (let n = 1; n <= messages; n += 1) {
  reader.read(mutated(sound, random));
  if (n % 100_000 === 0) note(`${n} messages`);
}
const seconds = (performance.now() - before) / 1000;
const { cost } = reader;
line(
  `${cost.runs} messages with faults from seed ${seed} in ${seconds.toFixed(0)} s: none killed the reader`,
);
line(`    fields decoded all the same: ${cost.decoded}; faults: ${JSON.stringify(cost.faults)}`);
line(`    most steps of a field: ${cost.mostSteps} (allowed ${FUZZ_LIMITS.mostSteps})`);
line(
  `    most bytes of a field: ${cost.mostBytes} (allowed ${FUZZ_LIMITS.mostBytes}), kept by a kernel ${cost.mostKeptBytes}`,
);
line(`    slowest message: ${cost.slowestMs.toFixed(1)} ms`);
line(
  `    resident memory before and after: ${mebibytes(heapBefore)}, ${mebibytes(process.memoryUsage.rss())} MiB`,
);

function mebibytes(bytes: number): string {
  return (bytes / 2 ** 20).toFixed(0);
}
