import { z } from 'zod';
import { outputShape } from '../shapes/shape.ts';

const sessionSchema = z.object({
  token: z.string().describe('Send it as `Authorization: Bearer …`; it is shown only here.'),
  expiresAt: z.iso.datetime().describe('The latest end; idle for hours it ends before.'),
  csrf: z
    .string()
    .describe('What a page that sends the cookie instead puts into the header x-csrf-token.'),
});

/** A session that was just opened. */
export const Session = outputShape('Session', sessionSchema);
export type Session = z.output<typeof Session.schema>;

/** Either a session, or that a second factor is still to be shown. */
export const SignedIn = outputShape(
  'SignedIn',
  sessionSchema.partial().extend({
    pending: z
      .string()
      .optional()
      .describe('The password was right: send this with a code of the second factor.'),
  }),
);
export type SignedIn = Session | { readonly pending: string };
