import { isIP } from 'node:net';
import {
  generateAuthenticationOptions,
  generateRegistrationOptions,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
  type WebAuthnCredential,
} from '@simplewebauthn/server';
import { decodeAttestationObject } from '@simplewebauthn/server/helpers';
import { z } from 'zod';
import { DomainError } from '#kernel/error.ts';
import type { Account } from '../../platform/access/viewer.ts';
import type {
  PasskeyCreation,
  PasskeyInput,
  PasskeyRequest,
  PasskeySignInInput,
} from './passkeys.contract.ts';

/** The ceremonies of WebAuthn level 3 (7.1 and 7.2) as this service holds them. */

/** Where a passkey may be made and used: `https://yard.example` and `yard.example`. */
export interface Site {
  readonly origin: string;
  readonly rpId: string;
}

/**
 * The site that PUBLIC_URL names. Browsers make passkeys for names only (level 3, 5.1.3: a domain),
 * and over TLS only, but on this machine. Throws `service.unavailable`.
 */
export function siteOf({ origin, hostname, protocol }: URL): Site {
  const isHere = hostname === 'localhost' || hostname.endsWith('.localhost');
  const isNumber = isIP(hostname) !== 0 || hostname.startsWith('[');
  if (!isNumber && (isHere || protocol === 'https:')) return { origin, rpId: hostname };
  throw new DomainError(
    'service.unavailable',
    `Passkeys need a name and TLS, and the service is at ${origin}.`,
    { cure: 'Whoever runs the service sets PUBLIC_URL to an https address with a name.' },
  );
}

/** EdDSA, ES256, RS256: what level 3 (5.4) advises to offer at least. */
const algorithms = [-8, -7, -257];

/** For the ceremony and for the challenge; level 3 (15.1) advises 5 to 10 minutes where the person is verified. */
export const ceremonyMs = 5 * 60 * 1000;

const siteName = 'Curewright';

/** Another passkey of the account; an authenticator that has one of `known` makes none. */
export async function creationOptions(
  { rpId }: Site,
  { accountId, email, name }: Account,
  known: readonly { readonly id: string; readonly transports: string[] }[],
): Promise<PasskeyCreation['options']> {
  const { challenge, user } = await generateRegistrationOptions({
    rpName: siteName,
    rpID: rpId,
    userName: email,
    userDisplayName: name,
    userID: handleOf(accountId),
    supportedAlgorithmIDs: algorithms,
  });
  return {
    rp: { id: rpId, name: siteName },
    user,
    challenge,
    pubKeyCredParams: algorithms.map((alg) => ({ type: 'public-key' as const, alg })),
    timeout: ceremonyMs,
    excludeCredentials: known.map(({ id, transports }) => ({
      type: 'public-key' as const,
      id,
      transports,
    })),
    authenticatorSelection: {
      residentKey: 'required',
      requireResidentKey: true,
      userVerification: 'required',
    },
    attestation: 'none',
  };
}

/** Whoever the passkey says: no account is named, so nothing is told of who has one. */
export async function requestOptions({ rpId }: Site): Promise<PasskeyRequest['options']> {
  const { challenge } = await generateAuthenticationOptions({ rpID: rpId });
  return { challenge, rpId, timeout: ceremonyMs, userVerification: 'required' };
}

/** The credential that was made for the challenge. Throws `access.passkey`. */
export async function checkMade(
  site: Site,
  challenge: string,
  { id, rawId, type, response }: PasskeyInput['credential'],
): Promise<WebAuthnCredential> {
  assertOwnPage(site, response.clientDataJSON);
  return accepted(async () => {
    if (!isPlain(response.attestationObject)) return undefined;
    const { verified, registrationInfo } = await verifyRegistrationResponse({
      response: { id, rawId, type, response, clientExtensionResults: {} },
      expectedChallenge: challenge,
      expectedOrigin: site.origin,
      expectedRPID: site.rpId,
      requireUserVerification: true,
      supportedAlgorithmIDs: algorithms,
    });
    return verified && registrationInfo.credential.id === id
      ? registrationInfo.credential
      : undefined;
  });
}

/** The new counter of a credential that signed the challenge. Throws `access.passkey`. */
export async function checkUsed(
  site: Site,
  challenge: string,
  { id, rawId, type, response }: PasskeySignInInput['credential'],
  accountId: string,
  credential: WebAuthnCredential,
): Promise<number> {
  assertOwnPage(site, response.clientDataJSON);
  // Level 3, 7.2 step 6: who is not named beforehand is named by the handle, and has to have the credential.
  const named = Buffer.from(response.userHandle, 'base64url');
  if (!named.equals(handleOf(accountId))) throw new DomainError('access.passkey');
  return accepted(async () => {
    const { verified, authenticationInfo } = await verifyAuthenticationResponse({
      response: { id, rawId, type, response, clientExtensionResults: {} },
      expectedChallenge: challenge,
      expectedOrigin: site.origin,
      expectedRPID: site.rpId,
      credential,
      requireUserVerification: true,
    });
    return verified ? authenticationInfo.newCounter : undefined;
  });
}

/** The account's id, which says nothing of the person (level 3, 14.6.1). */
function handleOf(accountId: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(Buffer.from(accountId.replaceAll('-', ''), 'hex'));
}

/**
 * With attestation `none` a client hands on no statement, or that of the key itself (level 3,
 * 5.1.3). Others bring certificates, whose revocation lists the library would fetch from wherever
 * they say: no caller decides what this service fetches.
 */
function isPlain(attestationObject: string): boolean {
  const bytes = new Uint8Array(Buffer.from(attestationObject, 'base64url'));
  const attestation = decodeAttestationObject(bytes);
  const format = attestation.get('fmt');
  return format === 'none' || (format === 'packed' && !attestation.get('attStmt').get('x5c'));
}

const clientData = z.object({ origin: z.string(), crossOrigin: z.boolean().optional() });

/**
 * Said before the library says less: an address that differs from PUBLIC_URL is what goes wrong
 * most in setting a service up. Nor may a page of others have had ours in a frame (7.1, 7.2).
 */
function assertOwnPage({ origin }: Site, clientDataJSON: string): void {
  const data = clientData.safeParse(jsonOf(clientDataJSON)).data;
  if (!data) throw new DomainError('access.passkey');
  if (data.crossOrigin === true) {
    throw new DomainError('access.passkey', 'The passkey was used inside another site’s page.');
  }
  if (data.origin !== origin) {
    throw new DomainError(
      'access.passkey',
      `The passkey was used on ${data.origin}, but the service is at ${origin}.`,
      { cure: 'Open the service by its own address, which is its PUBLIC_URL.' },
    );
  }
}

function jsonOf(base64url: string): unknown {
  try {
    return JSON.parse(Buffer.from(base64url, 'base64url').toString('utf8'));
  } catch {
    return undefined;
  }
}

/** Whatever the library has against an answer, which comes from outside, is a refusal. */
async function accepted<T>(check: () => Promise<T | undefined>): Promise<T> {
  const result = await check().catch(() => undefined);
  if (result === undefined) throw new DomainError('access.passkey');
  return result;
}
