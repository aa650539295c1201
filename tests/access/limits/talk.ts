import { once } from 'node:events';

/** A socket to the service, of which each word is under the test's control. */
export interface Talk {
  say(message: unknown): void;
  /** What it said so far. */
  readonly heard: readonly Heard[];
  /** Waits for a message of the operation (or of none) that is not `next`. */
  reply(id?: string): Promise<Heard>;
  /** Code and reason with which the service closed it. */
  readonly closed: Promise<{ code: number; reason: string }>;
  end(): void;
}

interface Heard {
  readonly type: string;
  readonly id?: string;
  readonly payload?: unknown;
}

/** Opens it; with a token it says `connection_init` and waits until that is taken. */
export async function talk(
  apiUrl: string,
  token?: string,
  protocol = 'graphql-transport-ws',
): Promise<Talk> {
  const socket = new WebSocket(`${apiUrl.replace('http', 'ws')}/graphql`, protocol);
  const heard: Heard[] = [];
  const change = new EventTarget();
  socket.addEventListener('message', ({ data }) => {
    heard.push(JSON.parse(String(data)) as Heard);
    change.dispatchEvent(new Event('more'));
  });
  const closed = new Promise<{ code: number; reason: string }>((resolve) => {
    socket.addEventListener('close', ({ code, reason }) => {
      resolve({ code, reason });
    });
  });
  await once(socket, 'open');
  const say = (message: unknown): void => {
    socket.send(typeof message === 'string' ? message : JSON.stringify(message));
  };
  const reply = async (id?: string): Promise<Heard> => {
    for (;;) {
      const found = heard.find((one) => one.type !== 'next' && one.id === id);
      if (found) return found;
      await once(change, 'more');
    }
  };
  if (token !== undefined) {
    say({ type: 'connection_init', payload: { authorization: `Bearer ${token}` } });
    await reply();
  }
  return {
    say,
    heard,
    reply,
    closed,
    end: () => {
      socket.close();
    },
  };
}

export const subscribe = (id: string, query: string, more: object = {}): unknown => ({
  type: 'subscribe',
  id,
  payload: { query, ...more },
});
