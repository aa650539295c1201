import { api, asked, type Schema } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { everyPage } from '../../api/resource.ts';
import type { YardEvent } from '../../api/live.ts';
import { type KeptResource, useKeptResource } from '../../offline/kept-resource.ts';
import type { Booking, Desk } from './waiting.ts';

const most = 100;
/** Of older alarms nobody asks any more. */
const mostAlarms = 100;
const mostReady = 1000;

type After = string | undefined;
const page = (after: After) => ({ first: most, ...(after === undefined ? {} : { after }) });

type Lists = Omit<Desk, 'bookings' | 'words' | 'warnings'>;

async function readLists(yardId: string, signal: AbortSignal): Promise<Lists> {
  const path = { yardId };
  const snagsThat = (state: Schema<'Snag'>['state']): Promise<Schema<'Snag'>[]> =>
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/snags', {
          params: { path, query: { ...page(after), state } },
          signal,
        }),
      ),
    );
  const changesThat = (state: Schema<'Change'>['state']): Promise<Schema<'Change'>[]> =>
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/changes', {
          params: { path, query: { ...page(after), state } },
          signal,
        }),
      ),
    );
  const [candidates, reports, snags, changes, alarms] = await Promise.all([
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/candidates', {
          params: { path, query: { ...page(after), state: 'open' } },
          signal,
        }),
      ),
    ),
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/reports', {
          params: { path, query: { ...page(after), outcome: 'held' } },
          signal,
        }),
      ),
    ),
    Promise.all([snagsThat('open'), snagsThat('proposed'), snagsThat('accepted')]),
    Promise.all([changesThat('asked'), changesThat('priced')]),
    asked(
      api.GET('/api/v1/yards/{yardId}/alarms', {
        params: { path, query: { first: mostAlarms, all: 'true' } },
        signal,
      }),
    ),
  ]);
  return {
    candidates,
    reports,
    snags: snags.flat(),
    changes: changes.flat(),
    alarms: alarms.items,
  };
}

const listed: ReadonlySet<string> = new Set([
  'candidate',
  'report',
  'snag',
  'photo',
  'change',
  'alarm',
  'plan',
]);

/** Null where no plan is published. */
async function readBookings(yardId: string, signal: AbortSignal): Promise<readonly Booking[]> {
  const plan = await asked(
    api.GET('/api/v1/yards/{yardId}/published-plan', { params: { path: { yardId } }, signal }),
  ).catch((error: unknown) => {
    if (problemOf(error).status === 404) return null;
    throw error;
  });
  return (plan?.tasks ?? []).flatMap(({ id, name, part, boat, slot, state }) =>
    slot === null || slot.bookBy === null || state === 'done'
      ? []
      : [{ taskId: id, task: name, part, boat, slot }],
  );
}

async function readWords(
  yardId: string,
  signal: AbortSignal,
): Promise<readonly Schema<'ReadyTask'>[]> {
  const { ready } = await asked(
    api.GET('/api/v1/yards/{yardId}/ready', {
      params: { path: { yardId }, query: { whose: 'all', first: mostReady } },
      signal,
    }),
  );
  return ready.filter(({ skill }) => skill === null);
}

/** Hold points of which nothing but the word is missing. */
export const useWords = (yardId: string): KeptResource<readonly Schema<'ReadyTask'>[]> =>
  useKeptResource(`desk words ${yardId}`, (signal) => readWords(yardId, signal), {
    yardId,
    on: ({ subject }) => subject === 'task' || subject === 'plan' || subject === 'job',
  });

/** What the published plan takes and nobody has booked. */
export const useBookings = (yardId: string): KeptResource<readonly Booking[]> =>
  useKeptResource(`desk bookings ${yardId}`, (signal) => readBookings(yardId, signal), {
    yardId,
    on: ({ subject }) => subject === 'plan',
  });

const setUp: ReadonlySet<string> = new Set(['boat', 'refit', 'part', 'job', 'material', 'space']);
const changesSetUp = ({ subject }: YardEvent): boolean =>
  setUp.has(subject) || ['procedure', 'person', 'yard', 'outdoor'].includes(subject);

/** How many things of the set-up the service doubts. */
const useWarnings = (yardId: string): KeptResource<number> =>
  useKeptResource(
    `desk warnings ${yardId}`,
    async (signal) => {
      const { items } = await asked(
        api.GET('/api/v1/yards/{yardId}/warnings', { params: { path: { yardId } }, signal }),
      );
      return items.length;
    },
    { yardId, on: changesSetUp },
  );

export interface DeskRead {
  /** Undefined until all of it has been read once. */
  readonly desk: Desk | undefined;
  readonly problem: KeptResource<unknown>['problem'];
  readonly again: () => void;
  /** Of the oldest of it. */
  readonly asOf: string | undefined;
}

/** All that may wait for the foreman. */
export function useDesk(yardId: string): DeskRead {
  const lists = useKeptResource(`desk ${yardId}`, (signal) => readLists(yardId, signal), {
    yardId,
    on: ({ subject }) => listed.has(subject),
  });
  const words = useWords(yardId);
  const bookings = useBookings(yardId);
  const warnings = useWarnings(yardId);
  const parts = [lists, words, bookings, warnings];
  const isRead =
    lists.data !== undefined &&
    words.data !== undefined &&
    bookings.data !== undefined &&
    warnings.data !== undefined;
  return {
    desk: isRead
      ? { ...lists.data, words: words.data, bookings: bookings.data, warnings: warnings.data }
      : undefined,
    problem: parts.find(({ problem }) => problem !== undefined)?.problem,
    again: () => {
      for (const part of parts) part.again();
    },
    asOf: parts
      .flatMap(({ asOf }) => asOf ?? [])
      .sort()
      .at(0),
  };
}
