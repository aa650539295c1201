import { resetMinutes } from '#persistence/access/accounts.ts';
import type { Mail } from '../../platform/mail/post.ts';

/**
 * Whoever causes a mail chooses nothing in it: a stranger who asks for a link in somebody's name
 * could else have us deliver what they like. The name is the account's own.
 */
interface Recipient {
  readonly email: string;
  readonly name: string;
}

export function resetMail({ email, name }: Recipient, link: string): Mail {
  return {
    to: email,
    subject: 'Set your Curewright password',
    text: `Hello ${name},

somebody, most likely you, asked for a new password for this address. Choose it here:

${link}

The link works once, within ${resetMinutes} minutes. Using it signs you out everywhere and
ends your program keys. A second factor is asked for as before and passkeys go on working, so
remove those that are not yours; only where nobody has shown yet that this address is theirs,
which the link does, are they removed for you.

If it was not you, do nothing: your password stays as it is, and nobody else has seen this link.
`,
  };
}

export function changedMail({ email, name }: Recipient, how: string, publicUrl: URL): Mail {
  return {
    to: email,
    subject: 'Your Curewright password was changed',
    text: `Hello ${name},

your password was changed at ${new Date().toISOString().slice(0, 16).replace('T', ' ')} UTC, ${how}.

If that was you, there is nothing to do. If not, have a link for a new one sent to this address
at once, at ${new URL('password', publicUrl).href}, and tell whoever runs the service.
`,
  };
}
