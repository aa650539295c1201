import { z } from 'zod';
import { id, name } from '#planning/yard/scalars.ts';
import { Session } from '../../platform/access/session-shape.ts';
import { typedPassword } from '../../platform/access/typed-password.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const token = z.string().min(1).max(200).describe('What stands behind the # of the link.');

export const InvitationToken = inputShape('InvitationTokenInput', z.strictObject({ token }));
export type InvitationToken = z.output<typeof InvitationToken.schema>;

/** What whoever holds the link is told before accepting. */
export const InvitationPreview = outputShape(
  'InvitationPreview',
  z.object({
    yard: z.string(),
    person: z.string(),
    expiresAt: z.iso.datetime(),
    needsEmail: z
      .boolean()
      .describe('A new account has to name its e-mail; else it is where the link was sent.'),
  }),
);
export type InvitationPreview = z.output<typeof InvitationPreview.schema>;

/** Signed in, the token alone; otherwise with what a new account needs. */
export const InvitationAcceptance = inputShape(
  'InvitationAcceptanceInput',
  z.strictObject({
    token,
    name: name.optional().describe('The person’s name in the yard unless told.'),
    email: z.email().max(254).optional(),
    password: typedPassword.optional(),
  }),
);
export type InvitationAcceptance = z.output<typeof InvitationAcceptance.schema>;

export const Joining = outputShape(
  'Joining',
  z.object({
    yardId: id,
    yard: z.string(),
    personId: id,
    person: z.string(),
    session: Session.schema.nullable().describe('Of an account that was made just now.'),
  }),
);
export type Joining = z.output<typeof Joining.schema>;
