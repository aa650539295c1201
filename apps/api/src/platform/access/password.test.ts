import { argon2Sync } from 'node:crypto';
import { hashRaw } from '@node-rs/argon2';
import { expect, test } from 'vitest';
import { hashPassword, isWeaker, passwordMatches } from './password.ts';

const password = 'lantern gravel ochre tuesday';

/** Version 19, argon2id, from src/test.c of the reference implementation that RFC 9106 names. */
test.each([
  [
    65_536,
    2,
    1,
    'password',
    'somesalt',
    '09316115d5cf24ed5a15a31a3ba326e5cf32edc24702987c02b6566f61913cf7',
  ],
  [
    256,
    2,
    1,
    'password',
    'somesalt',
    '9dfeb910e80bad0311fee20f9c0e2b12c17987b4cac90c2ef54d5b3021c68bfe',
  ],
  [
    256,
    2,
    2,
    'password',
    'somesalt',
    '6d093c501fd5999645e0ea3bf620d7b8be7fd2db59c20d9fff9539da2bf57037',
  ],
  [
    65_536,
    2,
    1,
    'differentpassword',
    'somesalt',
    '0b84d652cf6b0c4beaef0dfe278ba6a80df6696281d7e0d2891b817d8c458fde',
  ],
  [
    65_536,
    2,
    1,
    'password',
    'diffsalt',
    'bdf32b05ccc42eb15d58fd19b1f856b113da1e9a5874fdcc544308565aa8141c',
  ],
])('m=%d t=%d p=%d %s %s', async (memoryCost, timeCost, parallelism, text, salt, expected) => {
  const options = { memoryCost, timeCost, parallelism, salt: Buffer.from(salt) };
  expect((await hashRaw(text, options)).toString('hex')).toBe(expected);
});

/** OpenSSL's argon2, which shares no code with the library; unlike that it takes associated data. */
const reference = (input: Omit<Parameters<typeof argon2Sync>[1], 'tagLength'>): Buffer =>
  argon2Sync('argon2id', { ...input, tagLength: 32 });

test('what we store is argon2id as RFC 9106 defines it', async () => {
  // Section 5.3: the vector of argon2id, with a secret and associated data.
  const published = reference({
    message: Buffer.alloc(32, 1),
    nonce: Buffer.alloc(16, 2),
    secret: Buffer.alloc(8, 3),
    associatedData: Buffer.alloc(12, 4),
    memory: 32,
    passes: 3,
    parallelism: 4,
  });
  expect(published.toString('hex')).toBe(
    '0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659',
  );
  const stored = await hashPassword(password);
  // OWASP Password Storage Cheat Sheet: at least 19 MiB, two passes, one lane.
  const [, algorithm, version, cost, salt, tag] = stored.split('$');
  expect([algorithm, version, cost]).toEqual(['argon2id', 'v=19', 'm=19456,t=2,p=1']);
  const nonce = Buffer.from(salt, 'base64');
  expect(nonce).toHaveLength(16);
  const again = reference({ message: password, nonce, memory: 19_456, passes: 2, parallelism: 1 });
  expect(Buffer.from(tag, 'base64').equals(again)).toBe(true);
});

test('matches the password in any normal form, and nothing else; nobody has none', async () => {
  const stored = await hashPassword('Zähes Harz'.normalize('NFC'));
  expect(await passwordMatches(stored, 'Zähes Harz'.normalize('NFD'))).toBe(true);
  expect(await passwordMatches(stored, 'Zahes Harz')).toBe(false);
  expect(await passwordMatches(null, 'nobody has this password')).toBe(false);
});

test.each([
  ['$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$9dfeb910', false],
  ['$argon2id$v=19$m=65536,t=3,p=4$c29tZXNhbHQ$9dfeb910', false],
  ['$argon2id$v=19$m=19455,t=2,p=1$c29tZXNhbHQ$9dfeb910', true],
  ['$argon2id$v=19$m=65536,t=1,p=1$c29tZXNhbHQ$9dfeb910', true],
  ['$argon2id$v=16$m=19456,t=2,p=1$c29tZXNhbHQ$9dfeb910', true],
  ['$argon2i$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$9dfeb910', true],
])('%s is weaker than today: %s', (stored, weaker) => {
  expect(isWeaker(stored)).toBe(weaker);
});
