import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { onYardEvent, type YardEvent } from '../../api/live.ts';
import type { Picture, PictureTask } from './model.ts';
import { type Life, lifeIn } from './reports.ts';

/** How a task stands by now. */
export type Now = PictureTask['now'];

/**
 * The states of the tasks that are drawn: each by itself, so that what somebody reports changes
 * one plank and nothing else.
 */
export class Lives {
  readonly #byTask = new Map<string, Signal<Now>>();

  constructor({ tasks }: Picture) {
    for (const { id, now } of tasks) this.#byTask.set(id, signal(now));
  }

  of(taskId: string): ReadonlySignal<Now> | undefined {
    return this.#byTask.get(taskId);
  }

  hear(event: YardEvent): void {
    const drawn = this.#byTask.get(event.subjectId);
    const life = lifeIn(event);
    if (drawn !== undefined && life !== undefined) drawn.value = nowOf(life);
  }
}

/** Events written down so long before a picture was read may not be in it. */
const marginMs = 5_000;
const mostHeard = 200;

/** The states as the picture had them, and as they change from then on. */
export function useLives(picture: Picture, yardId: string): Lives {
  const heard = useRef<readonly YardEvent[]>([]);
  const lives = useMemo(() => {
    const made = new Lives(picture);
    const since = Date.parse(picture.at) - marginMs;
    for (const event of heard.current) if (Date.parse(event.at) >= since) made.hear(event);
    return made;
  }, [picture]);
  const latest = useRef(lives);
  latest.current = lives;
  useEffect(
    () =>
      onYardEvent(yardId, (event) => {
        if (lifeIn(event) === undefined) return;
        heard.current = [...heard.current.slice(1 - mostHeard), event];
        latest.current.hear(event);
      }),
    [yardId],
  );
  return lives;
}

function nowOf({ state, claim, crew, startedAt, finishedAt }: Life): Now {
  const isOver = state === 'done' || state === 'redo';
  return {
    state: claim?.status === 'open' && !isOver ? 'claimed' : state,
    crew: [...(claim?.crew ?? (state === 'waiting' ? [] : crew))],
    startedAt,
    finishedAt: isOver ? finishedAt : null,
  };
}
