// pitward save: a forecast to replay later.

import { startStandIn } from '#demo/stand-in.ts';
import { liveSource } from '#service/live-source.ts';
import type { Arguments } from './arguments.ts';
import { savedText } from './saved.ts';
import { readSettings } from './settings.ts';
import { EXIT, logTo, type Terminal } from './terminal.ts';

export async function save(args: Arguments, terminal: Terminal): Promise<number> {
  const { config, parts, demo } = await readSettings(args, terminal);
  const standIn = demo ? await startStandIn({ nowMs: terminal.nowMs }) : null;
  const nws = { ...config.sources.nws, ...(standIn ? { baseUrl: standIn.baseUrl } : {}) };
  const source = liveSource({
    config: { ...config, sources: { nws } },
    nowMs: terminal.nowMs,
    log: logTo(terminal),
    sleep: terminal.sleep,
    ownSource: standIn !== null,
  });
  try {
    const pulled = await source.pull({ latDeg: parts.fields.at[0], lonDeg: parts.fields.at[1] });
    terminal.out(savedText(pulled, terminal.nowMs()));
    return EXIT.done;
  } finally {
    await source.close();
    await standIn?.close();
  }
}
