import { Injectable, Logger } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { Database } from '../database/database.ts';
import { AnsweredBefore, type Doing, inCommand, type KeyedCommand } from './keyed-command.ts';

/**
 * Commands done under a key. Its answer is kept in the transaction of the change (`underKey`), so a
 * repetition does it where the first came to nothing, waits while the first is at it, and else gets
 * the same answer, whatever became of the process that gave it.
 */
@Injectable()
export class IdempotencyKeys {
  readonly #log = new Logger('idempotency');

  constructor(private readonly database: Database) {}

  async once(command: KeyedCommand, act: () => Promise<unknown>): Promise<unknown> {
    const begun = { isHeld: false, committed: undefined, isOpen: false, isOver: false };
    const doing: Doing = { ...command, ...begun };
    let answer: unknown;
    try {
      answer = await inCommand(doing, act);
    } catch (error) {
      // Once it has held the key nobody has done it before; refused earlier, somebody may have.
      if (doing.isHeld && !(error instanceof AnsweredBefore)) throw error;
      const before = await this.#answerOf(command);
      if (before === undefined) throw error;
      return before.body;
    }
    // Rarely: whoever adds to the answer after the transaction, or writes elsewhere than in the yard.
    if (!isCommitted(doing, answer)) await this.#settle(command, answer);
    return answer;
  }

  /**
   * For nobody in the yard: the command may have ended the caller's own access. How it went is what
   * the caller is to hear, whatever becomes of its key.
   */
  async #settle(command: KeyedCommand, answer: unknown): Promise<void> {
    const { yardId, memberId, key, fingerprint, kept } = command;
    try {
      await this.database.asService(
        yardId,
        (tx) => tx.$executeRaw`
          INSERT INTO idempotency_key (yard_id, member_id, key, fingerprint, body)
          VALUES (${yardId}, ${memberId}, ${key}, ${fingerprint}, ${kept(answer)}::jsonb)
          ON CONFLICT (yard_id, member_id, key) DO UPDATE SET body = EXCLUDED.body`,
      );
    } catch (error) {
      this.#log.error('an answer could not be kept', error instanceof Error ? error.stack : '');
    }
  }

  /** What was answered under the key; undefined: nothing yet. The same key for another command is refused. */
  async #answerOf(command: KeyedCommand): Promise<{ readonly body: unknown } | undefined> {
    const { yardId, memberId, key, fingerprint } = command;
    const row = await this.database.asService(yardId, (tx) =>
      tx.idempotencyKey.findUnique({ where: { yardId_memberId_key: { yardId, memberId, key } } }),
    );
    if (row === null) return undefined;
    if (row.fingerprint !== fingerprint) throw new DomainError('command.repeated');
    return { body: row.body ?? undefined };
  }
}

function isCommitted({ committed, kept }: Doing, answer: unknown): boolean {
  if (committed === undefined) return false;
  return committed.answer === answer || kept(committed.answer) === kept(answer);
}
