import { api, asked } from '../api/client.ts';
import { enter } from './session.ts';

/** By password. What comes back is shown together with a code; null: that was all. */
export async function signIn(email: string, password: string): Promise<string | null> {
  const { pending } = await asked(api.POST('/api/v1/sessions', { body: { email, password } }));
  if (pending !== undefined) return pending;
  await enter();
  return null;
}

/** The second half of it: a code of the authenticator, or a recovery code. */
export async function showCode(pending: string, code: string): Promise<void> {
  await asked(api.POST('/api/v1/sessions/second-factor', { body: { pending, code } }));
  await enter();
}

/** A passkey shows both at once. */
export async function signInByPasskey(): Promise<void> {
  const { askPasskey } = await import('./passkey.ts');
  const { challengeId, options } = await asked(api.POST('/api/v1/sessions/passkey/options'));
  const credential = await askPasskey(options);
  await asked(api.POST('/api/v1/sessions/passkey', { body: { challengeId, credential } }));
  await enter();
}
