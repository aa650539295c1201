import { z } from 'zod';
import { scopes } from '#access/rule.ts';
import { id, name } from '#planning/yard/scalars.ts';
import { typedPassword } from '../../platform/access/typed-password.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const scopeSchema = named('Scope', z.enum(scopes));

const moment = z.iso.datetime();

const keySchema = z.object({
  id: z.string(),
  personId: id.describe('Whose it is: it does what they may, as far as its scopes reach.'),
  person: z.string(),
  name: z.string(),
  scopes: z.array(scopeSchema),
  state: named('ProgramKeyState', z.enum(['open', 'expired', 'revoked'])),
  createdAt: moment,
  expiresAt: moment,
  lastUsedAt: moment.nullable().describe('To the minute; null: never used.'),
  revokedAt: moment.nullable(),
});

export const ProgramKey = outputShape('ProgramKey', keySchema);
export const ProgramKeyPage = pageShape(ProgramKey);
export const NewProgramKey = outputShape(
  'NewProgramKey',
  keySchema.extend({
    token: z
      .string()
      .nullable()
      .describe(
        'Send it as `Authorization: Bearer …`; it is shown only here. Null where the command is repeated.',
      ),
  }),
);

/** For the caller's own use; lives 90 days unless told. */
export const ProgramKeyInput = inputShape(
  'ProgramKeyInput',
  z.strictObject({
    name: name.describe('What the key is for.'),
    scopes: z
      .array(scopeSchema)
      .min(1)
      .max(scopes.length)
      .describe('read changes nothing, work is a builder’s day, manage the foreman’s.'),
    days: z.int().min(1).max(366).default(90),
    password: typedPassword.describe(
      'Of the account, again: a key outlives the session that somebody left open.',
    ),
  }),
);

export type ProgramKey = z.output<typeof ProgramKey.schema>;
export type NewProgramKey = z.output<typeof NewProgramKey.schema>;
export type ProgramKeyInput = z.output<typeof ProgramKeyInput.schema>;
