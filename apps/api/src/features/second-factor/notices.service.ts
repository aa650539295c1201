import { Injectable } from '@nestjs/common';
import { Mailer } from '../../platform/mail/mailer.ts';

/** What a person is told of, who may not have done it: OWASP, Multifactor Authentication, "Changing MFA Factors". */
const happenings = {
  'totp-on': 'One-time codes are on: signing in with your password now asks for a code as well.',
  'totp-off': 'One-time codes are off: your password alone signs you in.',
  'codes-renewed': 'You have new recovery codes; those before are void.',
  'recovery-used': 'A recovery code was used in place of a one-time code.',
  'passkey-added': 'A passkey was added to your account.',
  'passkey-removed': 'A passkey was removed from your account.',
} as const;

/** Mails of changes to how an account signs in. They are sent after the change, which they do not hold up. */
@Injectable()
export class FactorNotices {
  constructor(private readonly mailer: Mailer) {}

  send(to: string, happening: keyof typeof happenings, more = ''): void {
    const said = [happenings[happening], more].filter((sentence) => sentence !== '').join(' ');
    const text = [
      said,
      `It was done at ${new Date().toISOString()} (UTC).`,
      '',
      'If that was not you, have a link for a new password sent to this address and use it at once: that ends all sessions and program keys. Then tell whoever runs the service.',
    ].join('\n');
    this.mailer.later(`a notice that ${happening}`, () =>
      this.mailer.send({ to, subject: 'Curewright: how you sign in has changed', text }),
    );
  }
}
