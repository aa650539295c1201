import { useEffect, useRef, useState } from 'preact/hooks';
import { isLive } from '../api/live.ts';
import { problemOf } from '../api/problem.ts';
import { type Live, type Resource, useResource } from '../api/resource.ts';
import { person } from '../session/session.ts';
import { heardFrom, isReachable } from './reachable.ts';
import { keep, keptAt } from './store.ts';

export interface KeptResource<T> extends Resource<T> {
  /** When the data were asked for, by the device's clock, ISO 8601. */
  readonly asOf: string | undefined;
}

interface Read<T> {
  readonly at: string;
  readonly data: T;
}

/** Out of reach, it is tried again this often; the way back is told sooner by `online`. */
const retryMs = 8_000;

/**
 * As `useResource`, and what was read is kept on the device for whoever is signed in: it is shown
 * at once the next time, and for as long as the service cannot be reached. `load` is told what was
 * read before.
 */
export function useKeptResource<T>(
  key: string | null,
  load: (signal: AbortSignal, before: T | null) => Promise<T>,
  live?: Live,
): KeptResource<T> {
  const accountId = person.value?.id;
  const [old, setOld] = useState<{ readonly key: string; readonly read: Read<T> }>();
  const before = useRef<Promise<Read<T> | null>>(Promise.resolve(null));
  useEffect(() => {
    if (key === null || accountId === undefined) return undefined;
    let isLeft = false;
    void before.current.then((read) => {
      if (!isLeft && read !== null) setOld({ key, read });
    });
    return () => {
      isLeft = true;
    };
  }, [key, accountId]);

  const wanted = useRef<string>(undefined);
  const name = `${accountId ?? ''} ${key ?? ''}`;
  if (wanted.current !== name) {
    wanted.current = name;
    before.current =
      key === null || accountId === undefined
        ? Promise.resolve(null)
        : keptAt(accountId, key).then(
            (read) => (read === null ? null : { at: read.at, data: read.data as T }),
            () => null,
          );
  }

  const resource = useResource<Read<T>>(
    key,
    async (signal) => {
      const at = new Date().toISOString();
      const data = await load(signal, (await before.current)?.data ?? null).catch(
        (error: unknown): never => {
          if (!signal.aborted) heardFrom(!problemOf(error).isUnreachable);
          throw error;
        },
      );
      heardFrom(true);
      if (key !== null && accountId !== undefined) {
        before.current = Promise.resolve({ at, data });
        await keep(accountId, key, data, at).catch(() => undefined);
      }
      return { at, data };
    },
    live,
  );

  const { again, problem } = resource;
  const isAway = problem?.isUnreachable === true;
  useEffect(() => {
    if (!isAway) return undefined;
    const timer = setInterval(again, retryMs);
    return () => {
      clearInterval(timer);
    };
  }, [isAway, again]);
  useWayBack(again);

  const read = resource.data ?? (old !== undefined && old.key === key ? old.read : undefined);
  return {
    ...resource,
    data: read?.data,
    asOf: read?.at,
    put: (data) => resource.put({ at: new Date().toISOString(), data }),
  };
}

/** Reads again whenever the service is back, or what comes live has been away for a while. */
function useWayBack(again: () => void): void {
  const seen = useRef({ reachable: isReachable.peek(), live: isLive.peek() });
  const [reachable, live] = [isReachable.value, isLive.value];
  const wasLive = useRef(false);
  useEffect(() => {
    const isBack = reachable && !seen.current.reachable;
    const isLiveAgain = live && !seen.current.live && wasLive.current;
    seen.current = { reachable, live };
    if (live) wasLive.current = true;
    if (isBack || isLiveAgain) again();
  }, [reachable, live, again]);
}
