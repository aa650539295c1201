import { createParamDecorator, type ExecutionContext, type MessageEvent } from '@nestjs/common';
import { ApiHeader } from '@nestjs/swagger';
import { Observable } from 'rxjs';
import { DomainError, fault } from '#kernel/error.ts';
import { requestOf } from '../access/caller.ts';

/** Proxies close what says nothing for a minute. */
const beatMs = 15_000;

/** What an `@Sse()` handler answers; the stream ends with `items`, or when the client leaves. */
export function sseOf<T>(
  items: AsyncIterableIterator<T, void>,
  show: (item: T) => MessageEvent,
): Observable<MessageEvent> {
  return new Observable((client) => {
    const beat = setInterval(() => client.next({ comment: '' }), beatMs);
    const pass = async (): Promise<void> => {
      for await (const item of items) client.next(show(item));
    };
    pass().then(
      () => client.complete(),
      (error: unknown) => client.error(error),
    );
    return () => {
      clearInterval(beat);
      void items.return?.();
    };
  });
}

const lastEventId = createParamDecorator((_: unknown, context: ExecutionContext) =>
  eventIdOf(requestOf(context).headers['last-event-id'], 'Last-Event-ID'),
);

/** The id of the last event that the client has, out of `Last-Event-ID`: bigint, or null. */
export function LastEventId(): ParameterDecorator {
  return (target, key, index) => {
    lastEventId()(target, key, index);
    const method = key === undefined ? undefined : Object.getOwnPropertyDescriptor(target, key);
    if (method && key !== undefined) {
      ApiHeader({
        name: 'Last-Event-ID',
        required: false,
        description: 'Go on after this event.',
      })(target, key, method);
    }
  };
}

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
