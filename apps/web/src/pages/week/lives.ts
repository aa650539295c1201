import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { onYardEvent, type YardEvent } from '../../api/live.ts';
import type { Picture, PictureTask } from './model.ts';

/** How a task stands by now. */
export type Now = PictureTask['now'];

/** What an event of work tells of the task after it, as much of it as shows. */
interface Life {
  readonly state: Exclude<Now['state'], 'claimed'>;
  readonly startedAt: string | null;
  readonly finishedAt: string | null;
  readonly crew: readonly string[];
  readonly claim: { readonly status: string; readonly crew: readonly string[] } | null;
}

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

/** Of an event of work its payload holds the life after it (`libs/live/life`). */
function lifeIn({ subject, payload }: YardEvent): Life | undefined {
  if (subject !== 'task') return undefined;
  const { after } = JSON.parse(payload) as { readonly after?: Life };
  return after !== undefined && 'state' in after ? after : undefined;
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

/** What can happen in a yard without a change to the picture. */
const elsewhere = /^(plan-run|alarm|reading|proposal|candidate|observation|push|report)/;

/** Whether the picture has to be read again; a report of work says all that it changes here. */
export const changesPicture = (event: YardEvent): boolean =>
  !elsewhere.test(event.kind) && lifeIn(event) === undefined;
