import type { FastifyReply, FastifyRequest } from 'fastify';
import { pagePolicy } from '../http/headers.ts';
import type { ScreenFile } from './screens.ts';

const year = 365 * 24 * 60 * 60;

type Form = 'br' | 'gzip';

/**
 * A file in the smallest form that the browser takes. What is named by a hash is kept for good; of
 * anything else the browser asks each time whether it is still so.
 */
export function sendFile(
  { headers }: FastifyRequest,
  reply: FastifyReply,
  file: ScreenFile,
  status = 200,
): FastifyReply {
  const form = formOf(headers['accept-encoding'], file);
  const etag = `"${file.tag}${form === undefined ? '' : `-${form}`}"`;
  void reply.code(status).headers({
    'content-security-policy': pagePolicy,
    'cache-control': file.isHashed ? `public, max-age=${String(year)}, immutable` : 'no-cache',
    vary: 'accept-encoding',
    etag,
  });
  if (status === 200 && isKnown(headers['if-none-match'], etag)) return reply.code(304).send();
  void reply.type(file.type);
  if (form === undefined) return reply.send(file.text);
  return reply.header('content-encoding', form).send(file[form]);
}

/** RFC 9110, 12.5.3, as far as browsers use it: names, and `q=0` for those that are not wanted. */
function formOf(accepted: string | string[] | undefined, file: ScreenFile): Form | undefined {
  const wanted = new Set(
    String(accepted ?? '')
      .toLowerCase()
      .split(',')
      .map((one) => one.trim().split(/\s*;\s*/))
      .filter(([, weight = '']) => !/^q=0(\.0*)?$/.test(weight))
      .map(([name]) => name),
  );
  return (['br', 'gzip'] as const).find((form) => file[form] !== undefined && wanted.has(form));
}

/** RFC 9110, 13.1.2: a weak comparison with any of the list. */
function isKnown(known: string | undefined, etag: string): boolean {
  if (known === undefined) return false;
  return known.split(',').some((one) => ['*', etag].includes(one.trim().replace(/^W\//, '')));
}
