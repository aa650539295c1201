import { z } from 'zod';
import { name } from '#planning/yard/scalars.ts';
import { typedPassword } from '../../platform/access/typed-password.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

/**
 * The JSON of WebAuthn level 3 (5.1.8 to 5.1.10): what `PublicKeyCredential.parse…OptionsFromJSON`
 * takes and `credential.toJSON()` gives. What else a browser sends beside these fields is dropped.
 */
const instant = z.iso.datetime();
const base64url = (longest: number) =>
  z
    .string()
    .max(longest)
    .regex(/^[A-Za-z0-9_-]+$/, 'use base64url without padding');
const challengeId = z
  .uuid()
  .describe('Of the options; each is answered once, within five minutes.');
const transports = z.array(z.string().min(1).max(32)).max(8);
const type = z.literal('public-key');

/** Its address has room for so many characters; authenticators in use stay far below. */
const longestId = 300;

const descriptor = named('PasskeyKnown', z.object({ type, id: z.string(), transports }));

export const PasskeyOptionsInput = inputShape(
  'PasskeyOptionsInput',
  z.strictObject({
    password: typedPassword.describe('Of the account, again.'),
  }),
);
export type PasskeyOptionsInput = z.output<typeof PasskeyOptionsInput.schema>;

const creation = z.object({
  rp: named('PasskeySite', z.object({ id: z.string(), name: z.string() })),
  user: named(
    'PasskeyUser',
    z.object({ id: z.string(), name: z.string(), displayName: z.string() }),
  ),
  challenge: z.string(),
  pubKeyCredParams: z.array(named('PasskeyAlgorithm', z.object({ type, alg: z.int() }))),
  timeout: z.int().describe('Milliseconds.'),
  excludeCredentials: z.array(descriptor),
  authenticatorSelection: named(
    'PasskeySelection',
    z.object({
      residentKey: z.literal('required'),
      requireResidentKey: z.boolean(),
      userVerification: z.literal('required'),
    }),
  ),
  attestation: z.literal('none'),
});

export const PasskeyCreation = outputShape(
  'PasskeyCreation',
  z.object({ challengeId, options: named('PasskeyCreationOptions', creation) }),
);
export type PasskeyCreation = z.output<typeof PasskeyCreation.schema>;

export const PasskeyInput = inputShape(
  'PasskeyInput',
  z.strictObject({
    challengeId,
    name: name.describe('For your own list, e.g. “phone”.'),
    credential: z.object({
      id: base64url(longestId),
      rawId: base64url(longestId),
      type,
      response: z.object({
        clientDataJSON: base64url(8_192),
        attestationObject: base64url(65_536),
        transports: transports.default([]),
      }),
    }),
  }),
);
export type PasskeyInput = z.output<typeof PasskeyInput.schema>;

export const Passkey = outputShape(
  'Passkey',
  z.object({
    id: z.string(),
    name: z.string(),
    createdAt: instant,
    lastUsedAt: instant.nullable(),
  }),
);
export type Passkey = z.output<typeof Passkey.schema>;

export const PasskeyList = outputShape('PasskeyList', z.object({ items: z.array(Passkey.schema) }));
export type PasskeyList = z.output<typeof PasskeyList.schema>;

export const PasskeyPatch = inputShape('PasskeyPatch', z.strictObject({ name }));
export type PasskeyPatch = z.output<typeof PasskeyPatch.schema>;

export const PasskeyRequest = outputShape(
  'PasskeyRequest',
  z.object({
    challengeId,
    options: named(
      'PasskeyRequestOptions',
      z.object({
        challenge: z.string(),
        rpId: z.string(),
        timeout: z.int().describe('Milliseconds.'),
        userVerification: z.literal('required'),
      }),
    ),
  }),
);
export type PasskeyRequest = z.output<typeof PasskeyRequest.schema>;

export const PasskeySignInInput = inputShape(
  'PasskeySignInInput',
  z.strictObject({
    challengeId,
    credential: z.object({
      id: base64url(longestId),
      rawId: base64url(longestId),
      type,
      response: z.object({
        clientDataJSON: base64url(8_192),
        authenticatorData: base64url(8_192),
        signature: base64url(8_192),
        userHandle: base64url(128),
      }),
    }),
  }),
);
export type PasskeySignInInput = z.output<typeof PasskeySignInInput.schema>;
