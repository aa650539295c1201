import { type Client, createClient } from 'graphql-ws';
import { effect, signal } from '@preact/signals';
import { csrf } from './client.ts';

/** Whether what comes live comes at present. */
export const isLive = signal(false);

let client: Client | undefined;

/** One socket for everything that a page follows; it comes back by itself. */
function socket(): Client {
  if (client !== undefined) return client;
  const mine = createClient({
    url: `${location.origin.replace(/^http/, 'ws')}/graphql`,
    connectionParams: () => ({ 'x-csrf-token': csrf.peek() }),
    lazyCloseTimeout: 2_000,
    keepAlive: 15_000,
    retryAttempts: Number.MAX_SAFE_INTEGER,
    retryWait: (retries) =>
      new Promise((resolve) => {
        const most = Math.min(30_000, 500 * 2 ** Math.min(retries, 6));
        setTimeout(resolve, most * (0.5 + Math.random() / 2));
      }),
    shouldRetry: () => csrf.peek() !== null,
    on: {
      connected: () => {
        isLive.value = true;
      },
      closed: () => {
        // One that was hung up says so late, when another may have taken its place.
        if (client === mine) isLive.value = false;
      },
    },
  });
  client = mine;
  return mine;
}

/** Ends all that is followed: whoever is signed in is somebody else now, or by another session. */
export function hangUp(): void {
  for (const yard of yards.values()) yard.end = null;
  void client?.dispose();
  client = undefined;
  isLive.value = false;
}

/** A subscription, and the shape of what it tells: `Data` is what its selection gives by the schema. */
export interface Following<Data> {
  readonly query: string;
  readonly variables: () => Record<string, unknown>;
  /** Never there: it carries the type. */
  readonly data?: Data;
}

/**
 * Follows a subscription until the function that comes back is called. `variables` is asked anew
 * at each connection, so that it goes on after the last thing heard.
 */
export function follow<Data>(
  { query, variables }: Following<Data>,
  heard: (data: Data) => void,
  ended: (why: unknown) => void = () => undefined,
): () => void {
  return socket().subscribe<Data>(
    {
      query,
      get variables() {
        return variables();
      },
    },
    {
      next: ({ data }) => {
        if (data !== null && data !== undefined) heard(data);
      },
      error: ended,
      complete: () => {
        ended(undefined);
      },
    },
  );
}

/** Something happened in the yard. `payload` is JSON. */
export interface YardEvent {
  readonly id: string;
  readonly kind: string;
  readonly subject: string;
  readonly subjectId: string;
  readonly at: string;
  readonly byMemberId: string | null;
  readonly payload: string;
}

const eventsQuery = `subscription Events($yardId: ID!, $after: ID) {
  events(yardId: $yardId, after: $after) { id kind subject subjectId at byMemberId payload }
}`;

type Hear = (event: YardEvent) => void;
interface Yard {
  readonly hearers: Set<Hear>;
  /** The last event heard, after which it goes on. */
  after: string | null;
  /** Ends the subscription that runs; null: none runs at present. */
  end: (() => void) | null;
}
const yards = new Map<string, Yard>();
const pauseMs = 5_000;

/** The yard's log as it grows, for its crew; all parts of a page share one subscription. */
export function onYardEvent(yardId: string, hear: Hear): () => void {
  const yard = yards.get(yardId) ?? { hearers: new Set(), after: null, end: null };
  yards.set(yardId, yard);
  yard.hearers.add(hear);
  if (yard.end === null) listen(yardId, yard);
  return () => {
    yard.hearers.delete(hear);
    if (yard.hearers.size > 0) return;
    yards.delete(yardId);
    yard.end?.();
  };
}

function listen(yardId: string, yard: Yard): void {
  const log: Following<{ readonly events: YardEvent }> = {
    query: eventsQuery,
    variables: () => ({ yardId, after: yard.after }),
  };
  const end = follow(
    log,
    ({ events }) => {
      yard.after = events.id;
      for (const hear of yard.hearers) hear(events);
    },
    () => {
      if (yard.end !== end) return;
      yard.end = null;
      // The service ended it: the session got another secret, or there is no way in any more.
      setTimeout(resume, pauseMs);
    },
  );
  yard.end = end;
}

/** Goes on with what pages still want to hear, once somebody is signed in. */
function resume(): void {
  if (csrf.peek() === null) return;
  for (const [yardId, yard] of yards) if (yard.end === null) listen(yardId, yard);
}

// A session that was renewed or begun again under a page that stayed.
effect(() => {
  if (csrf.value !== null) resume();
});
