import pg from 'pg';

/** One statement, as it went to the database. */
export interface Statement {
  readonly text: string;
  readonly values: readonly unknown[];
}

interface Asked {
  readonly text?: unknown;
  readonly values?: unknown;
}

let heard: Statement[] | null = null;
// eslint-disable-next-line @typescript-eslint/unbound-method -- called with the client it is asked of.
const { query } = pg.Client.prototype;
// Before any connection is made: the service keeps each one's own `query` from its beginning.
pg.Client.prototype.query = function (this: pg.Client, ...args: unknown[]): unknown {
  const [first, second] = args;
  const asked: Asked = typeof first === 'object' && first !== null ? first : { text: first };
  const values: unknown = Array.isArray(asked.values) ? asked.values : second;
  if (heard !== null && typeof asked.text === 'string') {
    heard.push({
      text: asked.text,
      values: Array.isArray(values) ? [...(values as unknown[])] : [],
    });
  }
  return Reflect.apply(query, this, args);
} as typeof query;

/** All statements that this process sends by `pg`, the service's and the queue's, while `work` goes on. */
export async function recorded<T>(
  work: () => Promise<T>,
): Promise<{ readonly result: T; readonly statements: readonly Statement[] }> {
  const statements: Statement[] = [];
  heard = statements;
  try {
    return { result: await work(), statements };
  } finally {
    heard = null;
  }
}

/** A value with other words in the place of some, however deep. */
function reworded(value: unknown, words: ReadonlyMap<string, string>): unknown {
  if (typeof value === 'string') {
    let text = value;
    for (const [old, other] of words) text = text.replaceAll(old, other);
    return text;
  }
  if (Array.isArray(value)) return value.map((one) => reworded(one, words));
  if (typeof value !== 'object' || value === null) return value;
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, reworded(one, words)]));
}

/** The same statements about other records: `words` says what stands for what. */
export const about = (
  statements: readonly Statement[],
  words: ReadonlyMap<string, string>,
): Statement[] =>
  statements.map(({ text, values }) => ({
    text,
    values: values.map((value) => reworded(value, words)),
  }));

/** Sends statements one after the other, as they were sent, over one connection of the pool. */
export async function replay(pool: pg.Pool, statements: readonly Statement[]): Promise<void> {
  const client = await pool.connect();
  try {
    for (const { text, values } of statements) {
      await (values.length === 0 ? client.query(text) : client.query(text, [...values]));
    }
  } finally {
    client.release();
  }
}
