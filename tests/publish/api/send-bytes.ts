// What no client would send, over a connection of its own.

import { connect } from 'node:net';

/** All that came back until the connection was closed. */
export function sendBytes(url: string, text: string): Promise<string> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname);
    let got = '';
    socket.on('data', (data) => {
      got += String(data);
    });
    socket.on('close', () => resolve(got));
    socket.on('error', reject);
    socket.write(text);
  });
}
