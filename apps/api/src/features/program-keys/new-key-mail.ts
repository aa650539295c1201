import type { Account } from '../../platform/access/viewer.ts';
import type { Mail } from '../../platform/mail/post.ts';
import type { ProgramKey } from './program-keys.contract.ts';

/** Told to the person, who may not have made it (OWASP ASVS 5.0, 6.3.7, from memory). */
export function newKeyMail(
  { email, name: person }: Pick<Account, 'email' | 'name'>,
  yardId: string,
  { name, scopes, expiresAt }: ProgramKey,
): Mail {
  return {
    to: email,
    subject: 'A Curewright program key was made in your name',
    text: `Hello ${person},

a key for a program was made in your name in the yard "${yardId}", by somebody who was signed in
as you and knew your password. It is called "${name}", opens ${scopes.join(', ')}, and ends on ${expiresAt.slice(0, 10)}.

If that was you, there is nothing to do. If not, have a link for a new password sent to this
address at once and use it: that ends all your keys and sessions. Then tell whoever runs the
service.
`,
  };
}
