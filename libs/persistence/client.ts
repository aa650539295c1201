import { setTimeout as sleep } from 'node:timers/promises';
import { PrismaPg } from '@prisma/adapter-pg';
import { Pool, type PoolClient } from 'pg';
import { DomainError } from '#kernel/error.ts';
import { isUnanswered, lasting, silentMs } from './connection.ts';
import { Prisma, PrismaClient } from './generated/client.ts';
import { sqlStateOf } from './refusal.ts';

export type Transaction = Prisma.TransactionClient;

/**
 * On whose behalf a transaction of a yard works: a member's, known by the account, or the
 * service's own (worker, event feed, start). Whom the account is in the yard, and whether it is
 * an owner who sees the own boats only, the database finds out itself: `sees` can only narrow it.
 */
export type Actor =
  | {
      readonly as: 'member';
      readonly yardId: string;
      readonly accountId: string;
      readonly sees: 'all' | 'own';
      /** Only for a yard that is being founded: the id its founder will have in it. */
      readonly founder?: string;
    }
  | { readonly as: 'service'; readonly yardId: string };

export const service = (yardId: string): Actor => ({ as: 'service', yardId });

/** What a transaction enters: a yard, what belongs to an account and to no yard, or nothing. */
export type Entry =
  Actor | { readonly as: 'account'; readonly accountId: string } | { readonly as: 'nobody' };

export interface TransactionOptions {
  /** How long the work may take, ms; default 15,000. */
  readonly timeout?: number;
  readonly isolationLevel?: Prisma.TransactionIsolationLevel;
  /** How often it is begun anew after a deadlock or a serialization failure; default 3. */
  readonly retries?: number;
}

export interface ClientOptions {
  /** At once; default 10. */
  readonly connections?: number;
  /** How long the server works on one statement, ms; default 15,000. */
  readonly statementMs?: number;
  /** How long a statement waits for a lock, ms; default 10,000. */
  readonly lockMs?: number;
  /** After how long the server ends a transaction that does nothing, ms; default 30,000. */
  readonly idleMs?: number;
}

/** How long a new connection, or a free one, is waited for, ms: longer than for a transaction. */
const connectMs = 12_000;

/**
 * A client of the database at `url`, to be closed with `$disconnect()`. The session's zone is
 * UTC whatever the server's: Prisma's adapter takes every instant for UTC, unread.
 */
export function createClient(url: string, options: ClientOptions = {}): PrismaClient {
  const { connections = 10, statementMs = 15_000, lockMs = 10_000, idleMs = 30_000 } = options;
  const settings = {
    TimeZone: 'UTC',
    statement_timeout: statementMs,
    lock_timeout: lockMs,
    idle_in_transaction_session_timeout: idleMs,
  };
  const pool = new Pool({
    ...lasting,
    connectionString: url,
    max: connections,
    connectionTimeoutMillis: connectMs,
    query_timeout: statementMs + silentMs,
    options: Object.entries(settings)
      .map(([name, value]) => `-c ${name}=${String(value)}`)
      .join(' '),
  });
  pool.on('connect', oneAtATime);
  return new PrismaClient({ adapter: new PrismaPg(pool, { disposeExternalPool: true }) });
}

/**
 * Prisma sends the queries of nested records at once, in one transaction, over one connection.
 * The driver queues them, but gives notice that its next version will not: queue them here.
 */
function oneAtATime(connection: PoolClient): void {
  const send = connection.query.bind(connection) as (...args: unknown[]) => unknown;
  let last: Promise<unknown> = Promise.resolve();
  const query = (...args: unknown[]): unknown => {
    // With a callback it is the pool's own, on a connection that nobody else has.
    if (typeof args.at(-1) === 'function') return send(...args);
    const answer = last.then(() => send(...args)).catch(endSilent);
    last = answer.catch(() => undefined);
    return answer;
  };
  /** A connection that no answer comes from would keep whoever is given it next waiting as well. */
  const endSilent = (error: unknown): never => {
    if (isUnanswered(error)) void connection.end();
    throw error;
  };
  connection.query = query as typeof connection.query;
}

/**
 * One transaction of a yard, entered for `actor`; row security shows it that yard and no other.
 * Throws record.missing where the account is no member, as for a yard that does not exist, and
 * record.exists where a yard to be founded is there. `work` may run more than once and must have
 * no effect but on `tx`.
 */
export function inYard<T>(
  prisma: PrismaClient,
  actor: Actor,
  work: (tx: Transaction) => Promise<T>,
  options: TransactionOptions = {},
): Promise<T> {
  return transaction(prisma, actor, work, options);
}

/**
 * One transaction on what belongs to the account and to no yard: its own row, sessions, factors;
 * to be read also its memberships and their yards. A new account is inserted as itself.
 */
export function asAccount<T>(
  prisma: PrismaClient,
  accountId: string,
  work: (tx: Transaction) => Promise<T>,
  options: TransactionOptions = {},
): Promise<T> {
  return transaction(prisma, { as: 'account', accountId }, work, options);
}

/** One transaction that sees nothing but what the functions of `access/lookups.ts` answer. */
export function nowhere<T>(
  prisma: PrismaClient,
  work: (tx: Transaction) => Promise<T>,
  options: TransactionOptions = {},
): Promise<T> {
  return transaction(prisma, { as: 'nobody' }, work, options);
}

/**
 * Leaves what `tx` had entered and enters `entry`, until the transaction ends or enters again:
 * for work that learns on its way whose it is. Throws as `inYard` does; the transaction is then over.
 */
export async function enter(tx: Transaction, entry: Entry): Promise<void> {
  try {
    await entering(tx, entry);
  } catch (error) {
    const state = sqlStateOf(error);
    if (state === 'CW404') throw new DomainError('record.missing', 'There is no such yard.');
    if (state === 'CW409') {
      throw new DomainError('record.exists', 'There is a yard of that id already.');
    }
    throw error;
  }
}

function entering(tx: Transaction, entry: Entry): Promise<number> {
  switch (entry.as) {
    case 'member': {
      const { yardId, accountId, sees, founder = null } = entry;
      return tx.$executeRaw`SELECT enter_yard(${yardId}, ${accountId}::uuid, ${sees}, ${founder}::text)`;
    }
    case 'service':
      return tx.$executeRaw`SELECT enter_yard_as_service(${entry.yardId})`;
    case 'account':
      return tx.$executeRaw`SELECT enter_account(${entry.accountId}::uuid)`;
    case 'nobody':
      return tx.$executeRaw`SELECT enter_nowhere()`;
  }
}

async function transaction<T>(
  prisma: PrismaClient,
  entry: Entry,
  work: (tx: Transaction) => Promise<T>,
  { timeout = 15_000, isolationLevel, retries = 3 }: TransactionOptions,
): Promise<T> {
  for (let attempt = 0; ; attempt += 1) {
    try {
      return await prisma.$transaction(
        async (tx) => {
          await enter(tx, entry);
          return work(tx);
        },
        { maxWait: 10_000, timeout, ...(isolationLevel === undefined ? {} : { isolationLevel }) },
      );
    } catch (error) {
      if (attempt >= retries || !isConflict(error)) throw error;
      await sleep(10 * 2 ** attempt);
    }
  }
}

/**
 * The server chose this transaction to give way (a serialization failure, a deadlock): the same
 * again may well succeed. P2034 is what Prisma calls it, unless it is the commit that fails.
 */
const isConflict = (error: unknown): boolean =>
  (error instanceof Prisma.PrismaClientKnownRequestError && error.code === 'P2034') ||
  ['40001', '40P01'].includes(sqlStateOf(error) ?? '');
