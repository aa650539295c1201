import { Readable } from 'node:stream';
import {
  applyDecorators,
  createParamDecorator,
  type ExecutionContext,
  Get,
  Header,
  StreamableFile,
} from '@nestjs/common';
import { ApiHeader, ApiProduces } from '@nestjs/swagger';
import { DomainError, fault } from '#kernel/error.ts';
import { requestOf } from '../access/caller.ts';

/** One event of a stream (HTML, 9.2 Server-sent events); `data` becomes JSON. */
export interface SseMessage {
  readonly id: string;
  readonly event: string;
  readonly data: object;
}

/** How each stream that is under way can be ended from outside. */
const endings = new WeakMap<StreamableFile, (why: DomainError) => void>();

/** The client gets an event named `refused`, which says why, and no more. */
export function endSse(answer: StreamableFile, why: DomainError): void {
  endings.get(answer)?.(why);
}

/** Proxies close what says nothing for a minute. */
const beatMs = 15_000;
const silence = ':\n\n';

/**
 * Declares a handler that answers with `sseOf`. Nest's own `@Sse` would send its 200 before an
 * asynchronous handler could refuse, once there is any interceptor.
 */
export const GetSse = (path = ''): MethodDecorator =>
  applyDecorators(
    Get(path),
    // nginx would collect the events into blocks.
    Header('X-Accel-Buffering', 'no'),
    ApiProduces('text/event-stream'),
    ApiHeader({ name: 'Last-Event-ID', required: false, description: 'Go on after this event.' }),
  );

/** The stream of `items`; it ends with them, or when the client leaves. Read as the client reads. */
export function sseOf<T>(
  items: AsyncIterableIterator<T, void>,
  show: (item: T) => SseMessage,
): StreamableFile {
  let isReading = false;
  let isOver = false;
  const beat = setInterval(() => stream.push(silence), beatMs);
  const stream = new Readable({
    read: () => {
      if (isReading) return;
      isReading = true;
      pass().catch((error: unknown) =>
        stream.destroy(error instanceof Error ? error : new Error(String(error))),
      );
    },
    destroy: (error, done) => {
      clearInterval(beat);
      void items.return?.();
      done(error);
    },
  });
  const pass = async (): Promise<void> => {
    for (;;) {
      const next = await items.next();
      if (stream.destroyed || isOver) return;
      if (next.done === true) {
        clearInterval(beat);
        stream.push(null);
        return;
      }
      if (!stream.push(textOf(show(next.value)))) break;
    }
    isReading = false;
  };
  // The headers go out with the first bytes: a client that waits for an event sees it is heard.
  stream.push(silence);
  const answer = new StreamableFile(stream, { type: 'text/event-stream; charset=utf-8' });
  endings.set(answer, (why) => {
    if (stream.destroyed || stream.readableEnded) return;
    isOver = true;
    clearInterval(beat);
    void items.return?.();
    const { code, message: detail, cure } = why;
    stream.push(textOf({ event: 'refused', data: { code, detail, cure } }));
    stream.push(null);
  });
  return answer;
}

function textOf({ id, event, data }: Omit<SseMessage, 'id'> & { readonly id?: string }): string {
  const line = id === undefined ? '' : `id: ${id}\n`;
  return `${line}event: ${event}\ndata: ${JSON.stringify(data)}\n\n`;
}

/** The id of the last event that the client has, out of `Last-Event-ID`: bigint, or null. */
export const LastEventId = createParamDecorator((_: unknown, context: ExecutionContext) =>
  eventIdOf(requestOf(context).headers['last-event-id'], 'Last-Event-ID'),
);

/** The id of an event, as text that a client sends; `name` says where. */
export function eventIdOf(sent: unknown, name: string): bigint | null {
  if (sent === undefined || sent === null || sent === '') return null;
  if (typeof sent === 'string' && /^\d{1,18}$/.test(sent)) return BigInt(sent);
  const wrong = fault('input.field', name, 'not the id of an event', {
    value: sent,
    cure: 'Send the id of an event that was received, or leave it out.',
  });
  throw new DomainError('input.field', `${name}: ${wrong.message}`, { faults: [wrong] });
}
