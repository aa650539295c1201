import { createServer } from 'node:net';

/** The port to use: `port` if it is free, and for 0 any free one. Looked at first, since a start takes a while. */
export async function claimPort(host: string, port: number): Promise<number> {
  const probe = createServer();
  try {
    return await new Promise<number>((resolve, reject) => {
      probe.once('error', reject);
      probe.listen({ host, port, exclusive: true }, () => {
        const address = probe.address();
        if (address === null || typeof address === 'string') reject(new Error('no port'));
        else resolve(address.port);
      });
    });
  } catch (error) {
    throw new Error(reason(error, host, port), { cause: error });
  } finally {
    await new Promise((resolve) => probe.close(resolve));
  }
}

function reason(error: unknown, host: string, port: number): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'EADDRINUSE') {
    return `Port ${String(port)} is taken. Stop what uses it, or choose another: PORT=${String(port + 1)} npm start`;
  }
  if (code === 'EACCES')
    return `Port ${String(port)} needs rights that you do not have. Take one above 1023.`;
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND')
    return `HOST ${host} is no address of this machine.`;
  return `Cannot listen on ${host}:${String(port)}: ${String(error)}`;
}
