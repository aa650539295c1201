import type { FastifyReply } from 'fastify';
import type { Config } from '../config/config.ts';
import type { Session } from './session-shape.ts';
import { cookieHeader } from './token.ts';

type Cookies = Pick<Config, 'secureCookie'>;

/** For browsers: the session as a cookie too, until its absolute end. */
export function giveCookie(
  reply: FastifyReply,
  { token, expiresAt }: Session,
  { secureCookie }: Cookies,
): void {
  const seconds = Math.floor((Date.parse(expiresAt) - Date.now()) / 1000);
  void reply.header('set-cookie', cookieHeader(token, seconds, secureCookie));
}

/** GraphQL's context of what comes over HTTP, as every mutation does: Mercurius puts the answer there. */
export interface Answering {
  readonly reply: FastifyReply;
}

/** The browser forgets its session. */
export function takeCookie(reply: FastifyReply, { secureCookie }: Cookies): void {
  void reply.header('set-cookie', cookieHeader('', 0, secureCookie));
}
