import { enter, service } from '#persistence/client.ts';
import type { Viewer } from '../access/viewer.ts';
import type { Tx } from './database.ts';

/** Work of the yard on somebody's behalf who may not do it: and then them again. */
export async function asService<T>(
  tx: Tx,
  { yardId, accountId, sees }: Viewer,
  work: () => Promise<T>,
): Promise<T> {
  await enter(tx, service(yardId));
  const made = await work();
  await enter(tx, { as: 'member', yardId, accountId, sees });
  return made;
}
