import { Socket } from 'node:net';

/** Where this process connects to while `work` runs, as `host:port`, or a path of this machine. */
export async function connectionsDuring(work: () => Promise<unknown>): Promise<string[]> {
  const seen: string[] = [];
  const connect = Reflect.get(Socket.prototype, 'connect') as (...args: unknown[]) => unknown;
  const watching = function (this: unknown, ...args: unknown[]): unknown {
    seen.push(placeOf(args.flat()));
    return connect.apply(this, args);
  };
  Reflect.set(Socket.prototype, 'connect', watching);
  try {
    await work();
  } finally {
    Reflect.set(Socket.prototype, 'connect', connect);
  }
  return seen;
}

/** Of `connect(port, host)`, `connect(options)` or `connect(path)`. */
function placeOf([first, second]: readonly unknown[]): string {
  if (typeof first === 'object' && first !== null) {
    const {
      host = 'localhost',
      port,
      path,
    }: { host?: unknown; port?: unknown; path?: unknown } = first;
    return typeof path === 'string' ? path : `${String(host)}:${String(port)}`;
  }
  return typeof second === 'string' ? `${second}:${String(first)}` : String(first);
}
