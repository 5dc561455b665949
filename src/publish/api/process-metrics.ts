// The process in figures, under the names that Prometheus clients share; read at each scrape, so that no timer or observer
// outlives the server.

import { Counter, Gauge, type Registry } from 'prom-client';

export function addProcessMetrics(registry: Registry, loopDelayMs: () => number): void {
  const startedAtS = Date.now() / 1000 - process.uptime();
  const gauge = (name: string, help: string, read: () => number) =>
    new Gauge({
      name,
      help,
      registers: [registry],
      collect() {
        this.set(read());
      },
    });
  new Counter({
    name: 'process_cpu_seconds_total',
    help: 'processor time, user and system',
    registers: [registry],
    collect() {
      const { user, system } = process.cpuUsage();
      this.reset();
      this.inc((user + system) / 1e6);
    },
  });
  gauge('process_start_time_seconds', 'start of the process, seconds since 1970', () => startedAtS);
  gauge('process_resident_memory_bytes', 'memory in use', () => process.memoryUsage.rss());
  gauge('nodejs_heap_size_used_bytes', 'heap in use', () => process.memoryUsage().heapUsed);
  gauge('nodejs_heap_size_total_bytes', 'heap held', () => process.memoryUsage().heapTotal);
  gauge(
    'nodejs_eventloop_lag_mean_seconds',
    'mean delay of the event loop over the last second',
    () => loopDelayMs() / 1000,
  );
}
