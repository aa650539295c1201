import { z } from 'zod';
import { roleSchema } from '#planning/yard/people.ts';
import { id, name } from '#planning/yard/scalars.ts';
import { typedPassword } from '../../platform/access/typed-password.ts';
import { named } from '../../platform/shapes/names.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

const shown = {
  units: named('UnitSystem', z.enum(['metric', 'imperial'])),
  temperature: named('TemperatureScale', z.enum(['celsius', 'fahrenheit'])),
};

export const Me = outputShape(
  'Me',
  z.object({
    id: z.string().describe('Of the account, the same in every yard.'),
    email: z.string(),
    name: z.string(),
    // In which screens show what is stored in SI units.
    ...shown,
    csrf: z.string().describe('Goes with the cookie, in the header x-csrf-token.'),
    secondFactorAt: z.iso
      .datetime()
      .nullable()
      .describe('When a second factor was shown in this session.'),
    memberships: z.array(
      named(
        'Membership',
        z.object({
          yardId: id,
          yard: z.string(),
          memberId: id,
          roles: z.array(roleSchema),
          secondFactorRequired: z
            .boolean()
            .describe('The yard lets in only sessions that showed a second factor.'),
        }),
      ),
    ),
    revision,
  }),
);
export type Me = z.output<typeof Me.schema>;

export const MePatch = inputShape('MePatch', patchOf(z.object({ name, ...shown })));
export type MePatch = z.output<typeof MePatch.schema>;

/** Which passwords are taken is not a matter of the shape: see `platform/access/password-policy.ts`. */
const newPassword = typedPassword.describe(
  '15 to 128 characters of any kind; none that is tried first.',
);

export const PasswordChange = inputShape(
  'PasswordChangeInput',
  z.strictObject({ oldPassword: typedPassword, password: newPassword }),
);
export type PasswordChange = z.output<typeof PasswordChange.schema>;

export const ResetRequest = inputShape(
  'ResetRequestInput',
  z.strictObject({ email: z.email().max(254) }),
);
export type ResetRequest = z.output<typeof ResetRequest.schema>;

export const PasswordReset = inputShape(
  'PasswordResetInput',
  z.strictObject({
    token: z.string().min(1).max(200).describe('What stands after the # of the link.'),
    password: newPassword,
  }),
);
export type PasswordReset = z.output<typeof PasswordReset.schema>;
