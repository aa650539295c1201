import { z } from 'zod';
import { roleSchema } from '#planning/yard/people.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const SignIn = inputShape(
  'SignInInput',
  z.strictObject({ email: z.email().max(254), password: z.string().min(1).max(200) }),
);
export type SignIn = z.output<typeof SignIn.schema>;

export const Session = outputShape(
  'Session',
  z.object({
    token: z.string().describe('Send it as `Authorization: Bearer …`; it is shown only here.'),
    expiresAt: instant,
  }),
);
export type Session = z.output<typeof Session.schema>;

export const Me = outputShape(
  'Me',
  z.object({
    email: z.string(),
    name: z.string(),
    memberships: z.array(
      named(
        'Membership',
        z.object({ yardId: id, yard: z.string(), memberId: id, roles: z.array(roleSchema) }),
      ),
    ),
  }),
);
export type Me = z.output<typeof Me.schema>;
