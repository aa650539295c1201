import { DomainError } from '#kernel/error.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { changedOne } from '../etag/revision.ts';

/** For `deleteMany` of one record that was read before; what others refer to stays. */
export async function deletedOne(deletion: PromiseLike<{ readonly count: number }>): Promise<void> {
  try {
    changedOne(await deletion);
  } catch (error) {
    if (refusalOf(error)?.kind === 'reference') throw new DomainError('record.in-use');
    throw error;
  }
}
