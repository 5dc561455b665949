// Against Net::SMPP in Perl (Debian's libnet-smpp-perl), an independent implementation of SMPP 3.4. Skipped, with a word
// why, where it is not installed.

import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createInterface } from 'node:readline';
import { afterEach, describe, expect, it } from 'vitest';
import { smpp, smppSettings } from '#notify/smpp.ts';
import { never, outgoingOf, testDeps } from './deps.ts';

const here = spawnSync('perl', ['-MNet::SMPP', '-e', '1']).status === 0;
if (!here) console.warn('skipped: Net::SMPP of Perl (Debian: libnet-smpp-perl) is not installed');

const open: { close(): unknown }[] = [];
let child: ChildProcess | null = null;
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
  child?.kill();
  child = null;
});

type Line = Readonly<Record<string, unknown>>;

describe.skipIf(!here)('a gateway of another make', () => {
  it('binds us, gets the septets, is obeyed when it is throttled, and is answered', async () => {
    child = spawn('perl', ['tests/notify/smsc.pl'], { stdio: ['ignore', 'pipe', 'inherit'] });
    const lines: Line[] = [];
    const waits: (() => void)[] = [];
    createInterface({ input: child.stdout as NodeJS.ReadableStream }).on('line', (line) => {
      lines.push(JSON.parse(line) as Line);
      for (const look of waits) look();
    });
    const until = (isSo: () => boolean): Promise<void> =>
      new Promise((resolve) => {
        const look = () => isSo() && resolve();
        waits.push(look);
        look();
      });
    await until(() => lines.length === 1);

    const deps = testDeps({ secrets: { SMPP_PASSWORD: 'geheim' } });
    const settings = { host: '127.0.0.1', port: lines[0]?.['port'], tls: false, systemId: 'pitward' };
    const channel = smpp(
      smppSettings.parse({ kind: 'smpp', ...settings, password: 'SMPP_PASSWORD', from: '15550199' }),
      deps,
    );
    open.push(channel);
    const out = outgoingOf(deps.clock, { text: 'Señal: [1] €5 @' });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'rate-limited' });
    expect(await channel.send(out, never())).toEqual({ kind: 'sent', reference: 'perl-2' });
    await until(() => lines.length === 6);
    expect(lines.slice(1)).toEqual([
      { bind: 'pitward', version: 0x34 },
      // TS 23.038: S e ñ a l : _ [ 1 ] _ € 5 _ @
      ...Array(2).fill({
        to: '15550100',
        from: '15550199',
        coding: 0,
        registered: 1,
        validity: '000000003000000R',
        hex: '53657d616c3a201b3c311b3e201b65352000',
      }),
      { acknowledged: 9001, status: 0 },
      { acknowledged: 9002, status: 0 },
    ]);
    expect(deps.receipts).toEqual([{ reference: 'perl-2', state: 'delivered', code: '000' }]);
    expect(deps.inbound).toMatchObject([{ from: '+15550100', to: '15550199', text: '1' }]);
    await channel.close();
    await until(() => lines.length === 7);
    expect(lines.at(-1)).toEqual({ unbind: true });
  });
});
