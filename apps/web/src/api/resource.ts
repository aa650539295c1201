import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { csrf } from './client.ts';
import { type Problem, problemOf } from './problem.ts';
import { isLive, onYardEvent, type YardEvent } from './live.ts';

export interface Resource<T> {
  /** The last answer; stays while it is read again. */
  readonly data: T | undefined;
  /** Why the last reading failed. */
  readonly problem: Problem | undefined;
  readonly isBusy: boolean;
  /** Reads it again. */
  readonly again: () => void;
  /** Puts an answer of a command in the place of what was read. */
  readonly put: (data: T) => void;
}

export interface Live {
  readonly yardId: string;
  /** Whether the event can have changed what was read; any, unless told. */
  readonly on?: (event: YardEvent) => boolean;
}

/** Events come in swarms: one reading for all of a moment. */
const settleMs = 150;

/**
 * Reads something when the part appears, when `key` changes (null: nothing to read), and, if
 * `live`, shortly after each event that can have changed it.
 */
export function useResource<T>(
  key: string | null,
  load: (signal: AbortSignal) => Promise<T>,
  live?: Live,
): Resource<T> {
  const [state, setState] = useState<{
    key: string | null;
    data?: T | undefined;
    problem?: Problem | undefined;
    isBusy: boolean;
  }>({ key, isBusy: key !== null });
  const loading = useRef<AbortController>(undefined);
  const latest = useRef(load);
  latest.current = load;

  const again = useCallback(() => {
    loading.current?.abort();
    if (key === null) return;
    const controller = new AbortController();
    loading.current = controller;
    setState((was) => ({
      key,
      data: was.key === key ? was.data : undefined,
      problem: was.key === key ? was.problem : undefined,
      isBusy: true,
    }));
    latest.current(controller.signal).then(
      (data) => {
        if (!controller.signal.aborted) setState({ key, data, isBusy: false });
      },
      (error: unknown) => {
        if (controller.signal.aborted) return;
        setState((was) => ({ key, data: was.data, problem: problemOf(error), isBusy: false }));
      },
    );
  }, [key]);

  useEffect(() => {
    again();
    return () => loading.current?.abort();
  }, [again]);

  // Refused because nobody was signed in any more: read as soon as somebody is.
  const wasRefused = useRef(false);
  wasRefused.current = state.problem?.status === 401;
  useEffect(
    () =>
      csrf.subscribe((now) => {
        if (now !== null && wasRefused.current) again();
      }),
    [again],
  );

  const yardId = live?.yardId;
  const concerns = useRef(live?.on);
  concerns.current = live?.on;
  useEffect(() => {
    if (yardId === undefined) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const soon = (): void => {
      clearTimeout(timer);
      timer = setTimeout(again, settleMs);
    };
    const end = onYardEvent(yardId, (event) => {
      if (concerns.current?.(event) !== false) soon();
    });
    // What happened between the reading and the moment the socket stood was heard by nobody.
    let wasLive = isLive.peek();
    const endLive = isLive.subscribe((now) => {
      if (now && !wasLive) soon();
      wasLive = now;
    });
    return () => {
      clearTimeout(timer);
      endLive();
      end();
    };
  }, [yardId, again]);

  const put = useCallback((data: T) => setState({ key, data, isBusy: false }), [key]);
  const isStale = state.key !== key;
  return {
    data: isStale ? undefined : state.data,
    problem: isStale ? undefined : state.problem,
    isBusy: isStale || state.isBusy,
    again,
    put,
  };
}

/** Every page of a list, one after the other. */
export async function everyPage<Item>(
  read: (after: string | undefined) => Promise<{
    readonly items: readonly Item[];
    readonly nextCursor: string | null;
  }>,
): Promise<Item[]> {
  const items: Item[] = [];
  let after: string | undefined;
  do {
    const page = await read(after);
    items.push(...page.items);
    after = page.nextCursor ?? undefined;
  } while (after !== undefined);
  return items;
}

/** At most so many records come at once. */
const most = 200;

/** The next page of a list, as long as the service gives them. */
export const pageAfter = (after: string | undefined): { first: number; after?: string } => ({
  first: most,
  ...(after === undefined ? {} : { after }),
});
