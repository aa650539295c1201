import { z } from 'zod';
import { typedPassword } from '../../platform/access/typed-password.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

export const SignIn = inputShape(
  'SignInInput',
  z.strictObject({ email: z.email().max(254), password: typedPassword }),
);
export type SignIn = z.output<typeof SignIn.schema>;

/** An open session as its account sees it in the list. */
export const MySession = outputShape(
  'MySession',
  z.object({
    id: z.string(),
    agent: z.string().describe('What the browser or program said of itself.'),
    createdAt: z.iso.datetime(),
    lastSeenAt: z.iso.datetime().describe('Behind the truth by a minute at most.'),
    expiresAt: z.iso.datetime().describe('The latest end; idle for hours it ends before.'),
    secondFactorAt: z.iso.datetime().nullable().describe('When a second factor was shown in it.'),
    current: z.boolean().describe('It is the one that asks.'),
  }),
);
export type MySession = z.output<typeof MySession.schema>;

export const MySessionPage = pageShape(MySession);

export const ClosedSessions = outputShape(
  'ClosedSessions',
  z.object({ closed: z.int().describe('How many there were.') }),
);
export type ClosedSessions = z.output<typeof ClosedSessions.schema>;
