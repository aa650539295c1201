import { AsyncLocalStorage, AsyncResource } from 'node:async_hooks';
import { Client, Pool } from 'pg';

const watched = new AsyncLocalStorage<string[]>();

/**
 * Lets `counted` see what a request asks of the database. The driver's own `query` is wrapped,
 * so that what any layer sends is seen; call it before the service makes its connections. A request that
 * waits for a connection is called back by whichever gives one up, and is counted as itself all the same.
 * Returns what undoes it.
 */
export function watchStatements(): () => void {
  const query = Reflect.get(Client.prototype, 'query') as (...args: unknown[]) => unknown;
  const watching = function (this: unknown, ...args: unknown[]): unknown {
    watched.getStore()?.push(textOf(args[0]));
    return query.apply(this, args);
  };
  const connect = Reflect.get(Pool.prototype, 'connect') as (...args: unknown[]) => unknown;
  const connecting = function (this: unknown, ...args: unknown[]): unknown {
    return connect.apply(
      this,
      args.map((arg) =>
        typeof arg === 'function' ? AsyncResource.bind(arg as () => unknown) : arg,
      ),
    );
  };
  Reflect.set(Client.prototype, 'query', watching);
  Reflect.set(Pool.prototype, 'connect', connecting);
  return () => {
    Reflect.set(Client.prototype, 'query', query);
    Reflect.set(Pool.prototype, 'connect', connect);
  };
}

function textOf(asked: unknown): string {
  if (typeof asked === 'string') return asked;
  const text: unknown = typeof asked === 'object' && asked !== null && Reflect.get(asked, 'text');
  return typeof text === 'string' ? text : 'unknown';
}

/** The statements sent on behalf of `work`, whatever else goes on at the same time. */
export async function counted<T>(
  work: () => Promise<T>,
): Promise<{ value: T; statements: readonly string[] }> {
  const statements: string[] = [];
  const value = await watched.run(statements, work);
  return { value, statements };
}
