// A stretch of network between a store and its database that can be cut or fall silent.

import { connect, createServer, type Socket } from 'node:net';

export interface NetworkProxy {
  readonly port: number;
  /** Breaks every connection and refuses new ones. */
  cut(): void;
  /** Takes everything and gives nothing on. */
  silence(): void;
  /** As a network should be; connections that were silent stay so. */
  mend(): void;
  close(): Promise<void>;
}

export async function startProxy(toPort: number): Promise<NetworkProxy> {
  let state: 'whole' | 'cut' | 'silent' = 'whole';
  const sockets = new Set<Socket>();
  const track = (socket: Socket): Socket => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket)).on('error', () => socket.destroy());
    return socket;
  };
  const server = createServer((near) => {
    track(near);
    if (state === 'cut') near.destroy();
    if (state !== 'whole') return;
    const far = track(connect(toPort, '127.0.0.1'));
    near.pipe(far).pipe(near);
    near.on('close', () => far.destroy());
    far.on('close', () => near.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const all = (act: (socket: Socket) => void): void => {
    for (const socket of sockets) act(socket);
  };
  return {
    port: typeof address === 'object' && address ? address.port : 0,
    cut() {
      state = 'cut';
      all((socket) => socket.destroy());
    },
    silence() {
      state = 'silent';
      all((socket) => socket.unpipe().pause());
    },
    mend() {
      state = 'whole';
    },
    async close() {
      all((socket) => socket.destroy());
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
