import { z } from 'zod';
import { id } from '#planning/yard/scalars.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const moment = z.iso.datetime();

const invitationSchema = z.object({
  id: z.string(),
  personId: id,
  person: z.string(),
  email: z.string().nullable().describe('Where the link was sent; null where it was handed over.'),
  invitedBy: z.string(),
  state: named('InvitationState', z.enum(['open', 'accepted', 'expired', 'revoked'])),
  createdAt: moment,
  expiresAt: moment,
  acceptedAt: moment.nullable(),
  revokedAt: moment.nullable(),
});

export const Invitation = outputShape('Invitation', invitationSchema);
export const InvitationPage = pageShape(Invitation);
export const NewInvitation = outputShape(
  'NewInvitation',
  invitationSchema.extend({
    link: z
      .string()
      .nullable()
      .describe(
        'Whoever opens it becomes the person, once; it is shown only here. Null where the command is repeated.',
      ),
    mailed: z
      .boolean()
      .describe(
        'Whether the mail with the link has gone out. False too while that is still being tried: hand it over yourself, or wait.',
      ),
  }),
);

/** The link is good for seven days unless told, and is mailed where an address is given. */
export const InvitationInput = inputShape(
  'InvitationInput',
  z.strictObject({
    email: z.email().max(254).nullable().default(null),
    days: z.int().min(1).max(30).default(7),
  }),
);

export type Invitation = z.output<typeof Invitation.schema>;
export type NewInvitation = z.output<typeof NewInvitation.schema>;
export type InvitationInput = z.output<typeof InvitationInput.schema>;
