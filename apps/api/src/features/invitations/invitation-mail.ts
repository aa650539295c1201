import { formatLocal } from '#calendar/local-time.ts';

export interface InvitationWords {
  readonly yard: string;
  readonly timeZone: string;
  readonly person: string;
  readonly invitedBy: string;
  /** A whole minute, ISO. */
  readonly expiresAt: string;
  readonly link: string;
}

/** What the invited person reads. */
export function invitationMail({
  yard,
  timeZone,
  person,
  invitedBy,
  expiresAt,
  link,
}: InvitationWords): { readonly subject: string; readonly text: string } {
  const until = `${formatLocal(expiresAt, 0, timeZone)} (${timeZone})`;
  return {
    subject: `Come into ${yard} on Curewright`,
    text: [
      `Hello ${person},`,
      '',
      `${invitedBy} invites you into the yard ${yard}. This link lets you in, once, until ${until}:`,
      '',
      link,
      '',
      'Whoever opens it comes in as you: pass it on to nobody. You can come in with an account that',
      'you have, or make one there. If you do not know what this is about, do nothing: the link ends',
      'by itself.',
      '',
    ].join('\n'),
  };
}
