import { createHash, generateKeyPairSync, type KeyObject, randomBytes, sign } from 'node:crypto';
import { z } from 'zod';

/**
 * An authenticator in software, together with the browser around it: it makes and uses ES256 keys
 * as WebAuthn level 3 says (6.1, 6.5), byte by byte, and shares no code with the library that
 * judges it. `wrong` makes it do one thing otherwise than it should.
 */
export interface Authenticator {
  /** Answers creation options as `credential.toJSON()` would. */
  make(options: unknown, wrong?: Wrong): MadeCredential;
  /** Answers request options with the key it made. */
  use(options: unknown, wrong?: Wrong): UsedCredential;
}

export interface Wrong {
  /** The page's address, or the site that the key is for, is another's. */
  readonly origin?: string;
  readonly rpId?: string;
  /** The page stands in a frame of another site. */
  readonly crossOrigin?: boolean;
  /** `webauthn.get` where it should be `webauthn.create`, and the other way round. */
  readonly type?: string;
  readonly challenge?: string;
  /** Nobody's finger or PIN was asked for; nobody was even there. */
  readonly unverified?: boolean;
  readonly absent?: boolean;
  /** Counts on from here instead. */
  readonly counter?: number;
  /** Signs with a key that it never showed. */
  readonly otherKey?: boolean;
  /** Says that it is another account's. */
  readonly userHandle?: string;
  /** Of the attestation: another format, or a statement where `none` has none. */
  readonly format?: string;
  readonly statement?: ReadonlyMap<string, Cbor>;
  /** Names another algorithm in the key. */
  readonly algorithm?: number;
}

export interface MadeCredential {
  readonly id: string;
  readonly rawId: string;
  readonly type: 'public-key';
  readonly authenticatorAttachment: 'platform';
  readonly clientExtensionResults: { readonly credProps: { readonly rk: true } };
  readonly response: {
    readonly clientDataJSON: string;
    readonly attestationObject: string;
    readonly transports: string[];
  };
}

export interface UsedCredential {
  readonly id: string;
  readonly rawId: string;
  readonly type: 'public-key';
  readonly authenticatorAttachment: 'platform';
  readonly clientExtensionResults: object;
  readonly response: {
    readonly clientDataJSON: string;
    readonly authenticatorData: string;
    readonly signature: string;
    readonly userHandle: string;
  };
}

const creation = z.object({
  challenge: z.string(),
  rp: z.object({ id: z.string() }),
  user: z.object({ id: z.string() }),
  pubKeyCredParams: z.array(z.object({ type: z.literal('public-key'), alg: z.int() })),
  excludeCredentials: z.array(z.object({ id: z.string() })),
});
const request = z.object({ challenge: z.string(), rpId: z.string() });

const es256 = -7;
const present = 0x01;
const verified = 0x04;
const backedUp = 0x08 | 0x10;
const withKey = 0x40;

/** `origin`: of the page that it is used on. */
export function authenticator(origin: string): Authenticator {
  const id = randomBytes(32);
  const key = newKey();
  let counter = 0;
  let handle = '';

  /** What browser and authenticator say together, whoever asks. */
  const sayings = (type: string, challenge: string, rpId: string, wrong: Wrong) => {
    if (new URL(origin).hostname !== rpId && wrong.rpId === undefined) {
      throw new Error(`a browser at ${origin} would not ask for a key of ${rpId}`);
    }
    counter = wrong.counter ?? counter + 1;
    const clientData = Buffer.from(
      JSON.stringify({
        type: wrong.type ?? type,
        challenge: wrong.challenge ?? challenge,
        origin: wrong.origin ?? origin,
        crossOrigin: wrong.crossOrigin ?? false,
      }),
    );
    const flags = (wrong.absent ? 0 : present) | (wrong.unverified ? 0 : verified) | backedUp;
    return { clientData, flags, site: sha256(Buffer.from(wrong.rpId ?? rpId)) };
  };

  return {
    make: (options, wrong = {}) => {
      const { challenge, rp, user, pubKeyCredParams, excludeCredentials } = creation.parse(options);
      if (!pubKeyCredParams.some(({ alg }) => alg === es256))
        throw new Error('ES256 is not asked for');
      if (excludeCredentials.some((known) => known.id === id.toString('base64url'))) {
        throw new Error('InvalidStateError: this authenticator has a key already');
      }
      handle = user.id;
      const { clientData, flags, site } = sayings('webauthn.create', challenge, rp.id, wrong);
      const credential = Buffer.concat([
        Buffer.alloc(16),
        uint(2, id.length),
        id,
        coseKey(key, wrong),
      ]);
      const data = Buffer.concat([site, Buffer.of(flags | withKey), uint(4, counter), credential]);
      const attestation = new Map<string, Cbor>([
        ['fmt', wrong.format ?? 'none'],
        ['attStmt', wrong.statement ?? new Map<string, Cbor>()],
        ['authData', data],
      ]);
      return {
        ...named(id),
        clientExtensionResults: { credProps: { rk: true } },
        response: {
          clientDataJSON: clientData.toString('base64url'),
          attestationObject: cbor(attestation).toString('base64url'),
          transports: ['internal', 'hybrid'],
        },
      };
    },
    use: (options, wrong = {}) => {
      const { challenge, rpId } = request.parse(options);
      const { clientData, flags, site } = sayings('webauthn.get', challenge, rpId, wrong);
      const data = Buffer.concat([site, Buffer.of(flags), uint(4, counter)]);
      const signing = wrong.otherKey ? newKey() : key;
      return {
        ...named(id),
        clientExtensionResults: {},
        response: {
          clientDataJSON: clientData.toString('base64url'),
          authenticatorData: data.toString('base64url'),
          signature: sign('sha256', Buffer.concat([data, sha256(clientData)]), signing).toString(
            'base64url',
          ),
          userHandle: wrong.userHandle ?? handle,
        },
      };
    },
  };
}

const named = (id: Buffer) =>
  ({
    id: id.toString('base64url'),
    rawId: id.toString('base64url'),
    type: 'public-key',
    authenticatorAttachment: 'platform',
  }) as const;

const newKey = (): KeyObject => generateKeyPairSync('ec', { namedCurve: 'P-256' }).privateKey;

const sha256 = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();

/** RFC 9053, 7.1: an elliptic key of two coordinates on P-256, for ES256. */
function coseKey(key: KeyObject, { algorithm = es256 }: Wrong): Buffer {
  const point = z.object({ x: z.string(), y: z.string() }).parse(key.export({ format: 'jwk' }));
  return cbor(
    new Map<number, Cbor>([
      [1, 2],
      [3, algorithm],
      [-1, 1],
      [-2, Buffer.from(point.x, 'base64url')],
      [-3, Buffer.from(point.y, 'base64url')],
    ]),
  );
}

export type Cbor = number | string | Uint8Array | readonly Cbor[] | ReadonlyMap<Cbor, Cbor>;

/** RFC 8949: whole numbers, text, bytes, lists and maps in the order given, lengths as short as can be. */
function cbor(value: Cbor): Buffer {
  if (typeof value === 'number') return value >= 0 ? head(0, value) : head(1, -1 - value);
  if (typeof value === 'string') {
    const text = Buffer.from(value);
    return Buffer.concat([head(3, text.length), text]);
  }
  if (value instanceof Uint8Array) return Buffer.concat([head(2, value.length), value]);
  if (isMap(value)) {
    const pairs = [...value].flatMap(([key, item]) => [cbor(key), cbor(item)]);
    return Buffer.concat([head(5, value.size), ...pairs]);
  }
  return Buffer.concat([head(4, value.length), ...value.map(cbor)]);
}

const isMap = (value: Cbor): value is ReadonlyMap<Cbor, Cbor> => value instanceof Map;

function head(major: number, count: number): Buffer {
  const kind = major << 5;
  if (count < 24) return Buffer.of(kind | count);
  if (count < 0x100) return Buffer.of(kind | 24, count);
  if (count < 0x10000) return Buffer.concat([Buffer.of(kind | 25), uint(2, count)]);
  return Buffer.concat([Buffer.of(kind | 26), uint(4, count)]);
}

function uint(bytes: 2 | 4, value: number): Buffer {
  const out = Buffer.alloc(bytes);
  out.writeUIntBE(value, 0, bytes);
  return out;
}
