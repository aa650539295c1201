import { createECDH } from 'node:crypto';
import { z } from 'zod';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const moment = z.iso.datetime();

/** RFC 8291, 2: the uncompressed point of P-256 that the browser made, and 16 bytes that it shares. */
const pointBytes = 65;
const secretBytes = 16;

const bytesOf = (text: string): Buffer | null =>
  /^[\w-]+={0,2}$/.test(text) ? Buffer.from(text, 'base64url') : null;

/** On the curve, as whoever encrypts for it needs. */
function isPoint(text: string): boolean {
  const bytes = bytesOf(text);
  if (bytes?.length !== pointBytes || bytes[0] !== 4) return false;
  const pair = createECDH('prime256v1');
  pair.generateKeys();
  try {
    pair.computeSecret(bytes);
    return true;
  } catch {
    return false;
  }
}

export const PushKey = outputShape(
  'PushKey',
  z.object({
    publicKey: z
      .string()
      .describe('The `applicationServerKey` to subscribe with: base64url, an uncompressed point.'),
  }),
);
export type PushKey = z.output<typeof PushKey.schema>;

/** What `PushSubscription.toJSON()` gives (Push API). */
export const PushSubscriptionInput = inputShape(
  'PushSubscriptionInput',
  z.strictObject({
    endpoint: z.string().min(1).max(2_000).describe('Secret: whoever has it can send.'),
    expirationTime: z.number().nullable().optional(),
    keys: z.strictObject({
      p256dh: z
        .string()
        .max(100)
        .refine(isPoint, 'use the base64url of an uncompressed point of P-256, 65 bytes'),
      auth: z
        .string()
        .max(100)
        .refine((text) => bytesOf(text)?.length === secretBytes, 'use the base64url of 16 bytes'),
    }),
  }),
);
export type PushSubscriptionInput = z.output<typeof PushSubscriptionInput.schema>;

export const PushSubscription = outputShape(
  'PushSubscription',
  z.object({
    id: z.string(),
    service: z.string().describe('The host that its notifications go through.'),
    agent: z.string().describe('What the browser said of itself.'),
    createdAt: moment,
    lastSentAt: moment.nullable(),
  }),
);
export type PushSubscription = z.output<typeof PushSubscription.schema>;

export const PushSubscriptionList = outputShape(
  'PushSubscriptionList',
  z.object({ items: z.array(PushSubscription.schema) }),
);
export type PushSubscriptionList = z.output<typeof PushSubscriptionList.schema>;
