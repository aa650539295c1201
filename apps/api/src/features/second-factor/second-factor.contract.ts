import { z } from 'zod';
import { Session } from '../../platform/access/session-shape.ts';
import { typedPassword } from '../../platform/access/typed-password.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const instant = z.iso.datetime();
const password = typedPassword.describe(
  'Of the account, again: who finds an open browser has not got it.',
);
const code = z
  .string()
  .min(6)
  .max(64)
  .describe(
    'Six digits of the authenticator, or a recovery code; spaces and dashes do not matter.',
  );

export const SecondFactor = outputShape(
  'SecondFactor',
  z.object({
    totpSince: instant.nullable().describe('Null: one-time codes are off.'),
    recoveryCodesLeft: z.int().min(0),
    passkeys: z.int().min(0),
    shownAt: instant.nullable().describe('When a second factor was shown in this session.'),
  }),
);
export type SecondFactor = z.output<typeof SecondFactor.schema>;

export const TotpSetUpInput = inputShape('TotpSetUpInput', z.strictObject({ password }));
export type TotpSetUpInput = z.output<typeof TotpSetUpInput.schema>;

export const TotpSetUp = outputShape(
  'TotpSetUp',
  z.object({
    secret: z.string().describe('Base 32, for an authenticator without a camera; shown only here.'),
    uri: z.string().describe('otpauth://…, for its picture; shown only here.'),
    confirmBefore: instant,
  }),
);
export type TotpSetUp = z.output<typeof TotpSetUp.schema>;

export const TotpConfirmInput = inputShape(
  'TotpConfirmInput',
  z.strictObject({
    code: z.string().min(6).max(64).describe('The first six digits of the new authenticator.'),
  }),
);
export type TotpConfirmInput = z.output<typeof TotpConfirmInput.schema>;

const recoveryCodes = z
  .array(z.string())
  .describe('Each stands in for a code once. Shown only here; those before are void.');

export const RecoveryCodes = outputShape('RecoveryCodes', z.object({ recoveryCodes }));
export type RecoveryCodes = z.output<typeof RecoveryCodes.schema>;

export const TotpConfirmed = outputShape(
  'TotpConfirmed',
  z.object({
    recoveryCodes,
    session: Session.schema.describe('The session goes on under this token; the old one is void.'),
  }),
);
export type TotpConfirmed = z.output<typeof TotpConfirmed.schema>;

/** To switch codes off, or for new recovery codes. */
export const FactorChangeInput = inputShape(
  'FactorChangeInput',
  z.strictObject({ password, code }),
);
export type FactorChangeInput = z.output<typeof FactorChangeInput.schema>;

export const SecondFactorCodeInput = inputShape('SecondFactorCodeInput', z.strictObject({ code }));
export type SecondFactorCodeInput = z.output<typeof SecondFactorCodeInput.schema>;

export const CodeSignInInput = inputShape(
  'CodeSignInInput',
  z.strictObject({
    pending: z.string().min(1).max(200).describe('What signing in with the password answered.'),
    code,
  }),
);
export type CodeSignInInput = z.output<typeof CodeSignInInput.schema>;
