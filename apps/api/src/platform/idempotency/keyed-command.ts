import { AsyncLocalStorage } from 'node:async_hooks';
import type { Transaction } from '#persistence/client.ts';

/** What is done once under a key of its member's. */
export interface KeyedCommand {
  readonly yardId: string;
  readonly memberId: string;
  readonly key: string;
  readonly fingerprint: string;
  /** What of an answer may be kept, as JSON; null: it answers nothing. */
  readonly kept: (answer: unknown) => string | null;
}

/** How far a command has come in this process. */
export interface Doing extends KeyedCommand {
  /** A transaction of it has found the key free. */
  isHeld: boolean;
  /** The answer that is committed with the change, as it was returned; undefined while none is. */
  committed: { readonly answer: unknown } | undefined;
  /** A transaction of it is under way: another one beside it would wait for it at the key. */
  isOpen: boolean;
  isOver: boolean;
}

/** Somebody has done the command under this key; thrown inside a transaction, which then changes nothing. */
export class AnsweredBefore extends Error {}

const doing = new AsyncLocalStorage<Doing>();

/** Does the command: transactions that it begins in its yard go through `underKey`. */
export async function inCommand<T>(command: Doing, act: () => Promise<T>): Promise<T> {
  try {
    return await doing.run(command, act);
  } finally {
    command.isOver = true;
  }
}

type Work<T> = (tx: Transaction) => Promise<T>;

/**
 * A transaction of the yard. Of a command under a key it first waits for others at the same key, and
 * is refused with `AnsweredBefore` where one of them has done it; and what it returns is kept as the
 * command's answer, in the same transaction, if it has written anything. So there is no moment at
 * which the change is there without its answer, and a process that dies before its commit leaves
 * neither.
 */
export async function underKey<T>(
  yardId: string,
  transaction: <R>(work: Work<R>) => Promise<R>,
  work: Work<T>,
): Promise<T> {
  const command = doing.getStore();
  if (command?.yardId !== yardId || command.isOpen || command.isOver) return transaction(work);
  command.isOpen = true;
  try {
    const { answer, isKept } = await transaction(async (tx) => {
      if (command.committed === undefined) await holdKey(tx, command);
      const result = await work(tx);
      return { answer: result, isKept: await keepIfWritten(tx, command, result) };
    });
    if (isKept) command.committed = { answer };
    return answer;
  } finally {
    command.isOpen = false;
  }
}

async function holdKey(tx: Transaction, command: Doing): Promise<void> {
  const { yardId, memberId, key } = command;
  const [{ free }] = await tx.$queryRaw<[{ free: boolean }]>`
    SELECT hold_key(${yardId}, ${memberId}, ${key}) AS free`;
  if (!free) throw new AnsweredBefore();
  command.isHeld = true;
}

/**
 * A transaction has an id from its first write on (or row lock: one that comes to nothing takes none);
 * one that only reads keeps nothing.
 */
async function keepIfWritten(
  tx: Transaction,
  { yardId, memberId, key, fingerprint, kept }: Doing,
  answer: unknown,
): Promise<boolean> {
  const rows = await tx.$executeRaw`
    INSERT INTO idempotency_key (yard_id, member_id, key, fingerprint, body)
    SELECT ${yardId}, ${memberId}, ${key}, ${fingerprint}, ${kept(answer)}::jsonb
    WHERE pg_current_xact_id_if_assigned() IS NOT NULL
    ON CONFLICT (yard_id, member_id, key) DO UPDATE SET body = EXCLUDED.body`;
  return rows > 0;
}
