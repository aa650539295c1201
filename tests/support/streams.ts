import { type Client, createClient } from 'graphql-ws';

export interface ServerSent {
  readonly id: string;
  readonly event: string;
  readonly data: Record<string, unknown>;
}

export interface FollowOptions {
  readonly token: string;
  readonly lastEventId?: string;
  /** Leaves the stream. */
  readonly signal?: AbortSignal;
}

/** The events of a stream as they come, until the server ends it or the signal leaves it. */
export async function* serverSent(
  url: string,
  { token, lastEventId, signal }: FollowOptions,
): AsyncGenerator<ServerSent, void> {
  const answer = await fetch(url, {
    headers: {
      authorization: `Bearer ${token}`,
      accept: 'text/event-stream',
      ...(lastEventId === undefined ? {} : { 'last-event-id': lastEventId }),
    },
    ...(signal === undefined ? {} : { signal }),
  });
  if (!answer.ok || answer.body === null) {
    throw new Error(`${String(answer.status)} ${await answer.text()}`);
  }
  let text = '';
  try {
    for await (const chunk of answer.body.pipeThrough(new TextDecoderStream())) {
      const blocks = `${text}${chunk}`.split('\n\n');
      text = blocks.pop() ?? '';
      for (const block of blocks) {
        const fields = new Map(
          block.split('\n').map((line): [string, string] => {
            const colon = line.indexOf(':');
            return [line.slice(0, colon), line.slice(colon + 1).trimStart()];
          }),
        );
        const data = fields.get('data');
        if (data === undefined) continue;
        yield {
          id: fields.get('id') ?? '',
          event: fields.get('event') ?? 'message',
          data: JSON.parse(data) as Record<string, unknown>,
        };
      }
    }
  } catch (error) {
    if (signal?.aborted !== true) throw error;
  }
}

/** Everything of a stream that ends. */
export async function collected<T>(items: AsyncIterable<T>): Promise<T[]> {
  const all: T[] = [];
  for await (const item of items) all.push(item);
  return all;
}

/** All of it: for streams that end. */
export async function allServerSent(url: string, options: FollowOptions): Promise<ServerSent[]> {
  return collected(serverSent(url, options));
}

/** A client of the api's subscriptions; `dispose()` it. */
export const subscriber = (apiUrl: string, token: string): Client =>
  createClient({
    url: `${apiUrl.replace('http', 'ws')}/graphql`,
    connectionParams: { authorization: `Bearer ${token}` },
    retryAttempts: 0,
  });
