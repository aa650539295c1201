import {
  type PublicKeyCredentialCreationOptionsJSON,
  startAuthentication,
  startRegistration,
  WebAuthnError,
} from '@simplewebauthn/browser';
import type { Schema } from '../api/client.ts';
import { Problem } from '../api/problem.ts';
import { door } from '../texts/door.ts';

type Used = Schema<'PasskeySignInInput'>['credential'];
type Made = Schema<'PasskeyInput'>['credential'];

/** Has the browser ask for a passkey of this site. Throws a `Problem` in words. */
export async function askPasskey(options: Schema<'PasskeyRequestOptions'>): Promise<Used> {
  const { id, rawId, type, response } = await startAuthentication({ optionsJSON: options }).catch(
    refused,
  );
  const { clientDataJSON, authenticatorData, signature, userHandle } = response;
  if (userHandle === undefined) return refused(new Error(door.passkeyUnknown));
  return {
    id,
    rawId,
    type,
    response: { clientDataJSON, authenticatorData, signature, userHandle },
  };
}

/** Has the browser make one. Throws a `Problem` in words. */
export async function makePasskey(options: Schema<'PasskeyCreationOptions'>): Promise<Made> {
  // The service names transports as texts; a browser passes over those that it does not know.
  const optionsJSON = options as PublicKeyCredentialCreationOptionsJSON;
  const { id, rawId, type, response } = await startRegistration({ optionsJSON }).catch(refused);
  const { clientDataJSON, attestationObject, transports = [] } = response;
  return { id, rawId, type, response: { clientDataJSON, attestationObject, transports } };
}

/** Browsers do not tell whether somebody cancelled, waited too long or has no such key. */
function refused(error: unknown): never {
  const code = error instanceof WebAuthnError ? error.code : '';
  const cause = error instanceof WebAuthnError ? error.cause : error;
  const isKnown =
    code === 'ERROR_AUTHENTICATOR_PREVIOUSLY_REGISTERED' ||
    (cause instanceof Error && cause.name === 'InvalidStateError');
  const isUnasked = cause instanceof Error && cause.name === 'NotAllowedError';
  const [detail, cure] = isKnown
    ? [door.passkeyKnown, door.passkeyKnownCure]
    : isUnasked
      ? [door.passkeyGivenUp, door.passkeyGivenUpCure]
      : [error instanceof Error ? error.message : door.passkeyGivenUp, door.passkeyGivenUpCure];
  throw new Problem(400, { code: 'passkey', title: door.passkeyGivenUp, detail, cure });
}
