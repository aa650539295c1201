import type { FastifyBaseLogger } from 'fastify';
import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';

const known: Readonly<Partial<Record<string, { status: number; detail: string; cure: string }>>> = {
  HPE_HEADER_OVERFLOW: {
    status: 431,
    detail: 'The headers are larger than is taken here.',
    cure: 'Send fewer or shorter headers.',
  },
  ERR_HTTP_REQUEST_TIMEOUT: {
    status: 408,
    detail: 'The request did not come in time.',
    cure: 'Send it again, without pausing.',
  },
};
const unreadable = {
  status: 400,
  detail: 'This is no request of HTTP/1.1.',
  cure: 'Send a well-formed request.',
};

/** Answers what Node cannot read as a request, in the form of all problems; no request has come of it. */
export function answerClientError(
  this: { readonly log: FastifyBaseLogger },
  error: Error & { readonly code?: string },
  socket: Socket,
): void {
  if (error.code === 'ECONNRESET' || socket.destroyed) return;
  if (!socket.writable) {
    socket.destroy(error);
    return;
  }
  const { status, detail, cure } = known[error.code ?? ''] ?? unreadable;
  const code = 'input.malformed';
  const body = JSON.stringify({
    type: `/problems/${code}`,
    title: 'The input cannot be read',
    status,
    detail,
    code,
    cure,
    errors: [],
  });
  socket.end(
    `HTTP/1.1 ${String(status)} ${STATUS_CODES[status] ?? ''}\r\n` +
      'content-type: application/problem+json\r\ncache-control: no-store\r\n' +
      `connection: close\r\ncontent-length: ${String(Buffer.byteLength(body))}\r\n\r\n${body}`,
    () => socket.destroy(),
  );
}
