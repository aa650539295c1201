import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import { addressOf } from '../http/address.ts';
import { requestOf } from './caller.ts';

/** Where a call comes from, as far as that can be known of somebody who is not signed in. */
export interface Origin {
  readonly address: string;
  /** What the browser or program said of itself. */
  readonly agent: string;
}

const longestAgent = 200;

/** `@From() from: Origin`, on both faces. */
export const From = createParamDecorator((_: unknown, context: ExecutionContext): Origin => {
  const request = requestOf(context);
  const agent = (request.headers['user-agent'] ?? '').slice(0, longestAgent);
  return { address: addressOf(request), agent };
});
