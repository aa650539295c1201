import { useEffect, useRef } from 'preact/hooks';
import { csrf } from '../../api/client.ts';
import { follow, type Following, isLive } from '../../api/live.ts';

interface Changed {
  readonly myBoatChanged: { readonly eventId: string; readonly boatIds: readonly string[] };
}

const query = `subscription MyBoat($yardId: ID!, $after: ID) {
  myBoatChanged(yardId: $yardId, after: $after) { eventId boatIds }
}`;

const pauseMs = 5_000;

/** Hears that one of the own boats is not what it was; an owner may not follow the yard's log. */
export function useBoatWord(yardId: string, hear: () => void): void {
  const latest = useRef(hear);
  latest.current = hear;
  useEffect(() => {
    let after: string | null = null;
    let end: (() => void) | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let isLeft = false;
    const word: Following<Changed> = { query, variables: () => ({ yardId, after }) };
    const listen = (): void => {
      if (isLeft || end !== null || csrf.peek() === null) return;
      const mine = follow(
        word,
        ({ myBoatChanged }) => {
          after = myBoatChanged.eventId;
          latest.current();
        },
        () => {
          // The service ended it: the session got another secret, or there is no way in any more.
          if (end !== mine) return;
          end = null;
          timer = setTimeout(listen, pauseMs);
        },
      );
      end = mine;
    };
    listen();
    const endSession = csrf.subscribe((now) => {
      if (now !== null) listen();
    });
    // What happened before the socket stood was heard by nobody.
    let wasLive = isLive.peek();
    const endLive = isLive.subscribe((now) => {
      if (now && !wasLive) latest.current();
      wasLive = now;
    });
    return () => {
      isLeft = true;
      clearTimeout(timer);
      endSession();
      endLive();
      end?.();
    };
  }, [yardId]);
}
