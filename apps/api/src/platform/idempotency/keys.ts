import { Injectable, Logger } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { Prisma } from '#persistence/generated/client.ts';
import type { Viewer } from '../access/viewer.ts';
import { Database, type Tx } from '../database/database.ts';
import { databaseError } from '../errors/database-errors.ts';

export interface KeyedCommand {
  readonly key: string;
  readonly fingerprint: string;
  readonly act: () => Promise<unknown>;
  /** What of the answer may be kept. */
  readonly kept: (answer: unknown) => unknown;
}

/**
 * Commands done under a key. The key is taken before the command and kept after it; a command
 * that is refused gives it back. Where the process dies between command and answer the key stays
 * taken: the outcome is unknown, and doing it again would be worse than saying so.
 */
@Injectable()
export class IdempotencyKeys {
  readonly #log = new Logger('idempotency');

  constructor(private readonly database: Database) {}

  async once(viewer: Viewer, { key, fingerprint, act, kept }: KeyedCommand): Promise<unknown> {
    if (!(await this.#take(viewer, key, fingerprint)))
      return this.#answerOf(viewer, key, fingerprint);
    const where = { yardId: viewer.yardId, memberId: viewer.memberId, key };
    let answer: unknown;
    try {
      answer = await act();
    } catch (error) {
      await this.#settle(viewer, (tx) => tx.idempotencyKey.deleteMany({ where }));
      throw error;
    }
    const body = answer === undefined ? Prisma.DbNull : (kept(answer) as Prisma.InputJsonValue);
    const data = { status: 200, body, completedAt: new Date() };
    await this.#settle(viewer, (tx) => tx.idempotencyKey.updateMany({ where, data }));
    return answer;
  }

  /**
   * For nobody in the yard: the command may have ended the caller's own access. How the command went
   * is what the caller is to hear, whatever becomes of its key.
   */
  async #settle({ yardId }: Viewer, work: (tx: Tx) => Promise<unknown>): Promise<void> {
    try {
      await this.database.asService(yardId, work);
    } catch (error) {
      this.#log.error('a key of a command stays taken', error instanceof Error ? error.stack : '');
    }
  }

  async #take(viewer: Viewer, key: string, fingerprint: string): Promise<boolean> {
    const { yardId, memberId } = viewer;
    try {
      await this.database.inYard(viewer, (tx) =>
        tx.idempotencyKey.create({ data: { yardId, memberId, key, fingerprint } }),
      );
      return true;
    } catch (error) {
      if (databaseError(error)?.code === 'record.exists') return false;
      throw error;
    }
  }

  async #answerOf(viewer: Viewer, key: string, fingerprint: string): Promise<unknown> {
    const { yardId, memberId } = viewer;
    const kept = await this.database.inYard(viewer, (tx) =>
      tx.idempotencyKey.findUnique({ where: { yardId_memberId_key: { yardId, memberId, key } } }),
    );
    if (kept?.fingerprint !== fingerprint) throw new DomainError('command.repeated');
    if (kept.status === null) {
      throw new DomainError(
        'command.repeated',
        'The first command with this key has not answered.',
        {
          cure: 'Wait and send it again; if it stays so, read the record to see whether it was done.',
        },
      );
    }
    return kept.body ?? undefined;
  }
}
