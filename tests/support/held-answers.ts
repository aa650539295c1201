import { once } from 'node:events';
import { createServer, connect, type AddressInfo, type Socket } from 'node:net';

export interface Line {
  /** Where calls go instead of to the service itself. */
  readonly url: string;
  /** From here on nothing that the service says comes through; what is sent to it does. */
  cut(): void;
  close(): Promise<void>;
}

/** A line to the service at `url` that can be cut in one direction: its answers are lost on the way. */
export async function lineTo(url: string): Promise<Line> {
  const { hostname, port } = new URL(url);
  const sockets = new Set<Socket>();
  let isCut = false;
  const server = createServer((near) => {
    const far = connect(Number(port), hostname);
    for (const socket of [near, far]) {
      sockets.add(socket);
      socket.on('error', () => socket.destroy());
      socket.on('close', () => sockets.delete(socket));
    }
    near.pipe(far);
    far.on('data', (bytes) => {
      if (!isCut) near.write(bytes);
    });
    far.on('close', () => near.destroy());
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${String(address.port)}`,
    cut: () => {
      isCut = true;
    },
    close: async () => {
      for (const socket of sockets) socket.destroy();
      server.close();
      await once(server, 'close');
    },
  };
}
