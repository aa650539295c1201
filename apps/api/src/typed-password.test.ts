import { expect, it } from 'vitest';
import { PasswordChange, PasswordReset } from './features/account/account.contract.ts';
import { PasskeyOptionsInput } from './features/passkeys/passkeys.contract.ts';
import {
  FactorChangeInput,
  TotpSetUpInput,
} from './features/second-factor/second-factor.contract.ts';
import { SignIn } from './features/session/session.contract.ts';

/** 128 characters, each of two units. */
const password = '\u{1F6A2}'.repeat(128);

it.each([
  ['signing in', SignIn, { email: 'ines@yard.test', password }],
  ['changing it', PasswordChange, { oldPassword: password, password }],
  ['setting it', PasswordReset, { token: 'of a link', password }],
  ['codes on', TotpSetUpInput, { password }],
  ['codes off', FactorChangeInput, { password, code: '123456' }],
  ['a passkey', PasskeyOptionsInput, { password }],
])('the longest password that can be set can be typed for %s', (_for, { schema }, input) => {
  expect(schema.safeParse(input)).toEqual({ success: true, data: input });
});
