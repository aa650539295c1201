import { z } from 'zod';

/** The protocol that is spoken: https://github.com/enisdenjo/graphql-ws/blob/master/PROTOCOL.md */
export const protocol = 'graphql-transport-ws';

const something = z.record(z.string(), z.unknown()).nullish();

/** What a client may say. */
export const messageSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('connection_init'), payload: something }),
  z.strictObject({ type: z.literal('ping'), payload: something }),
  z.strictObject({ type: z.literal('pong'), payload: something }),
  z.strictObject({ type: z.literal('complete'), id: z.string() }),
  z.strictObject({
    type: z.literal('subscribe'),
    id: z.string().min(1).max(100),
    payload: z.strictObject({
      query: z.string(),
      operationName: z.string().nullish(),
      variables: something,
      extensions: something,
    }),
  }),
]);
export type Message = z.output<typeof messageSchema>;

/** Why a socket is closed: codes of the protocol, and of RFC 6455 (7.4.1). */
export const closing = {
  tooLarge: [1009, 'Message too large'],
  tooMany: [1008, 'Too many messages'],
  invalid: [4400, 'Invalid message'],
  unready: [4401, 'Unauthorized'],
  unspoken: [4406, 'Subprotocol not acceptable'],
  late: [4408, 'Connection initialisation timeout'],
  taken: [4409, 'Subscriber already exists'],
  repeated: [4429, 'Too many initialisation requests'],
  full: [1013, 'Too many open streams'],
} as const satisfies Record<string, readonly [number, string]>;
