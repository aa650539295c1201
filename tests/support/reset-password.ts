import { hashOf, newToken } from '#persistence/access/token.ts';
import type { TestApi } from './api.ts';
import type { TestDatabase } from './database.ts';

/** Sets the password of an account by a link, as if it had been read in a mail: the status. */
export async function resetPassword(
  api: TestApi,
  { owner }: TestDatabase,
  accountId: string,
  password: string,
): Promise<number> {
  const token = newToken();
  const expiresAt = new Date(Date.now() + 60_000);
  await owner.passwordReset.create({ data: { tokenHash: hashOf(token), accountId, expiresAt } });
  const body = { token, password };
  return (await api.rest('POST', '/password-resets/complete', { body })).status;
}
