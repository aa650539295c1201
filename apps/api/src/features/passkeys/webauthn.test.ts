import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import * as published from './testing/published.ts';
import { checkMade, checkUsed, siteOf } from './webauthn.ts';

const site = { origin: 'https://example.org', rpId: 'example.org' };
const accountId = '0d4f1a5e-8c3b-4a6f-9b1d-2e7c6a5b4f30';
const userHandle = Buffer.from(accountId.replaceAll('-', ''), 'hex').toString('base64url');

const base64url = (hex: string): string => Buffer.from(hex, 'hex').toString('base64url');
const type = 'public-key' as const;

type Made = typeof published.madeBySelf;
type Used = typeof published.used;

const make = (made: Made, at = site) =>
  checkMade(at, base64url(made.challenge), {
    id: base64url(made.credentialId),
    rawId: base64url(made.credentialId),
    type,
    response: {
      clientDataJSON: base64url(made.clientDataJSON),
      attestationObject: base64url(made.attestationObject),
      transports: [],
    },
  });

const use = (used: Used, { counter = 0, handle = userHandle, at = site } = {}) =>
  checkUsed(
    at,
    base64url(used.challenge),
    {
      id: base64url(used.credentialId),
      rawId: base64url(used.credentialId),
      type,
      response: {
        clientDataJSON: base64url(used.clientDataJSON),
        authenticatorData: base64url(used.authenticatorData),
        signature: base64url(used.signature),
        userHandle: handle,
      },
    },
    accountId,
    {
      id: base64url(used.credentialId),
      publicKey: new Uint8Array(Buffer.from(used.publicKey, 'hex')),
      counter,
      transports: [],
    },
  );

/** The same with one bit changed, for every byte. */
function* flips(hex: string): Generator<string> {
  for (let at = 0; at < hex.length / 2; at += 1) {
    const bytes = Buffer.from(hex, 'hex');
    bytes[at] ^= 1 << (at % 8);
    yield bytes.toString('hex');
  }
}

const refusal = { code: 'access.passkey' };
const codeOf = (error: unknown): unknown => error instanceof DomainError && error.code;

describe('the published ceremonies (WebAuthn level 3, 16)', () => {
  it('takes a key that a verified person made', async () => {
    const made = await make(published.madeBySelf);
    expect(made.id).toBe(base64url(published.madeBySelf.credentialId));
    expect(Buffer.from(made.publicKey).toString('hex')).toBe(
      published.madeBySelf.attestationObject.slice(-2 * 77),
    );
    expect(made.counter).toBe(0);
  });

  it('takes the signature of a verified person', async () => {
    expect(await use(published.used)).toBe(0);
  });

  it('refuses both where the person was not verified', async () => {
    await expect(make(published.madeWithoutVerification)).rejects.toMatchObject(refusal);
    await expect(use(published.usedWithoutVerification)).rejects.toMatchObject(refusal);
  });

  it('refuses what was made in a frame of another site', async () => {
    const words = { ...refusal, message: expect.stringContaining('another site') as string };
    await expect(make(published.madeInAFrame)).rejects.toMatchObject(words);
  });

  it('refuses certificates, whose revocation would be asked for at an address in them', async () => {
    await expect(make(published.madeWithCertificates)).rejects.toMatchObject(refusal);
  });
});

describe('changed', () => {
  it.each(['clientDataJSON', 'challenge', 'credentialId'] as const)(
    'in any byte of its %s, no key is taken',
    async (field) => {
      for (const changed of flips(published.madeBySelf[field])) {
        const made = { ...published.madeBySelf, [field]: changed };
        await expect(make(made), changed).rejects.toMatchObject(refusal);
      }
    },
  );

  it('in any byte of its attestation, no other key is taken', async () => {
    const right = await make(published.madeBySelf);
    let refused = 0;
    let all = 0;
    for (const attestationObject of flips(published.madeBySelf.attestationObject)) {
      all += 1;
      const taken = await make({ ...published.madeBySelf, attestationObject }).catch(codeOf);
      if (taken === refusal.code) refused += 1;
      // The library reads a tag and some lengths of the wrapping loosely; the key in it is the same.
      else expect(taken, attestationObject).toEqual(right);
    }
    expect(refused).toBeGreaterThan(0.98 * all);
  });

  it.each(['authenticatorData', 'clientDataJSON', 'signature', 'challenge'] as const)(
    'in any byte of its %s, no signature is taken',
    async (field) => {
      for (const changed of flips(published.used[field])) {
        const used = { ...published.used, [field]: changed };
        await expect(use(used), changed).rejects.toMatchObject(refusal);
      }
    },
  );

  it('into the key of another, no signature is taken', async () => {
    const { publicKey } = published.usedWithoutVerification;
    await expect(use({ ...published.used, publicKey })).rejects.toMatchObject(refusal);
  });

  it('for another site, another account or after a higher counter, neither is', async () => {
    const elsewhere = { origin: 'https://example.org', rpId: 'example.com' };
    await expect(make(published.madeBySelf, elsewhere)).rejects.toMatchObject(refusal);
    await expect(use(published.used, { at: elsewhere })).rejects.toMatchObject(refusal);
    const words = { ...refusal, message: expect.stringContaining('https://example.org') as string };
    const port = { origin: 'https://example.org:8443', rpId: 'example.org' };
    await expect(use(published.used, { at: port })).rejects.toMatchObject(words);
    await expect(use(published.used, { counter: 1 })).rejects.toMatchObject(refusal);
    await expect(use(published.used, { handle: 'AAAA' })).rejects.toMatchObject(refusal);
  });

  it.each(['null', '7', '"text"', '{}', '{', '{"origin": 1}'])(
    'client data of %s is a refusal, not a fault',
    async (text) => {
      const clientDataJSON = Buffer.from(text).toString('hex');
      const refused = make({ ...published.madeBySelf, clientDataJSON });
      await expect(refused).rejects.toMatchObject(refusal);
    },
  );
});

describe('the site', () => {
  it.each([
    ['https://yard.example', 'yard.example'],
    ['https://yard.example:8443', 'yard.example'],
    ['http://localhost:3000', 'localhost'],
    ['http://demo.localhost:3000', 'demo.localhost'],
  ])('%s is %s', (address, rpId) => {
    expect(siteOf(new URL(address))).toEqual({ origin: address, rpId });
  });

  it.each([
    'http://127.0.0.1:3000',
    'https://192.0.2.7',
    'https://[2001:db8::1]',
    'http://yard.example',
  ])('%s is none for which a browser makes passkeys', (address) => {
    const words = {
      code: 'service.unavailable',
      message: expect.stringContaining(address) as string,
    };
    expect(() => siteOf(new URL(address))).toThrow(expect.objectContaining(words));
  });
});
