import { createDecipheriv, createECDH, createPublicKey, hkdfSync, verify } from 'node:crypto';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

/** A browser's side of a subscription: what only it can read with (RFC 8291). */
export interface Receiver {
  readonly keys: { readonly p256dh: string; readonly auth: string };
  /** The text of a message that was encrypted for it; throws where it was not. */
  open(body: Buffer): string;
}

interface Secrets {
  readonly privateKey: Buffer;
  readonly auth: Buffer;
}

/** Written from RFC 8188 (2) and RFC 8291 (3.4), by nothing that the sender uses. */
export function receiverOf({ privateKey, auth }: Secrets): Receiver {
  const pair = createECDH('prime256v1');
  pair.setPrivateKey(privateKey);
  const own = pair.getPublicKey();
  const bits = (salt: Buffer, key: Buffer, info: Buffer, length: number): Buffer =>
    Buffer.from(hkdfSync('sha256', key, salt, info, length));
  return {
    keys: { p256dh: own.toString('base64url'), auth: auth.toString('base64url') },
    open: (body) => {
      const salt = body.subarray(0, 16);
      const recordSize = body.readUInt32BE(16);
      const idLength = body[20];
      const sender = body.subarray(21, 21 + idLength);
      const sealed = body.subarray(21 + idLength);
      if (sealed.length > recordSize) throw new Error('more than one record');
      const info = Buffer.concat([Buffer.from('WebPush: info\0'), own, sender]);
      const key = bits(auth, pair.computeSecret(sender), info, 32);
      const contentKey = bits(salt, key, Buffer.from('Content-Encoding: aes128gcm\0'), 16);
      const nonce = bits(salt, key, Buffer.from('Content-Encoding: nonce\0'), 12);
      const opening = createDecipheriv('aes-128-gcm', contentKey, nonce);
      opening.setAuthTag(sealed.subarray(-16));
      const plain = Buffer.concat([opening.update(sealed.subarray(0, -16)), opening.final()]);
      // The last record ends with a 2 and zeros (RFC 8188, 2).
      const end = plain.lastIndexOf(2);
      if (end < 0 || plain.subarray(end + 1).some((byte) => byte !== 0)) throw new Error('no end');
      return plain.subarray(0, end).toString('utf8');
    },
  };
}

/** Who sent a message, out of its `Authorization` (RFC 8292); throws where the signature is another's. */
export function senderOf(authorization: string): {
  readonly publicKey: string;
  readonly claims: Record<string, unknown>;
} {
  const found = /^vapid t=([^,]+), ?k=([\w-]+)$/.exec(authorization);
  if (found === null) throw new Error(authorization);
  const [, token, publicKey] = found;
  const [header, payload, signature] = token.split('.');
  const point = Buffer.from(publicKey, 'base64url');
  const key = createPublicKey({
    format: 'jwk',
    key: {
      kty: 'EC',
      crv: 'P-256',
      x: point.subarray(1, 33).toString('base64url'),
      y: point.subarray(33).toString('base64url'),
    },
  });
  const signed = Buffer.from(`${header}.${payload}`);
  const isRight = verify(
    'sha256',
    signed,
    { key, dsaEncoding: 'ieee-p1363' },
    Buffer.from(signature, 'base64url'),
  );
  if (!isRight) throw new Error('the signature is not right');
  const read = (part: string): Record<string, unknown> =>
    JSON.parse(Buffer.from(part, 'base64url').toString()) as Record<string, unknown>;
  if (read(header)['alg'] !== 'ES256') throw new Error('another algorithm');
  return { publicKey, claims: read(payload) };
}

export interface Pushed {
  /** Below the service's address: which subscription. */
  readonly path: string;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: Buffer;
}

export interface PushStandIn {
  readonly origin: string;
  readonly pushed: readonly Pushed[];
  /** How the next messages to a path are answered, 201 where nothing is left. */
  answer(path: string, ...statuses: number[]): void;
  close(): Promise<void>;
}

/** What a push service is to its senders (RFC 8030, 5), on this machine. */
export async function pushStandIn(): Promise<PushStandIn> {
  const pushed: Pushed[] = [];
  const answers = new Map<string, number[]>();
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', () => {
      const path = request.url ?? '';
      pushed.push({ path, headers: request.headers, body: Buffer.concat(chunks) });
      const status = answers.get(path)?.shift() ?? 201;
      response.writeHead(status, status === 201 ? { location: '/message/1' } : {});
      response.end();
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return {
    origin: `http://127.0.0.1:${String(port)}`,
    pushed,
    answer: (path, ...statuses) => {
      answers.set(path, statuses);
    },
    close: async () => {
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}
