import { useEffect, useState } from 'preact/hooks';
import { type Problem, problemOf } from '../api/problem.ts';
import { useYard } from '../frame/yard.tsx';
import { type Tried, tryPlacement, type Wish } from './try-placement.ts';

/** Somebody who ticks three people wants one answer. */
const settleMs = 200;

export interface Trial {
  /** Of the last wish; undefined while it is being tried, or with nothing wished. */
  readonly tried: Tried | undefined;
  readonly problem: Problem | undefined;
  readonly isBusy: boolean;
}

const idle: Trial = { tried: undefined, problem: undefined, isBusy: false };

/** Tries a wish shortly after it is made; null: there is none. */
export function useTrial(planId: string, taskId: string, wish: Wish | null): Trial {
  const { id: yardId } = useYard();
  const [trial, setTrial] = useState(idle);
  const key = wish === null ? null : JSON.stringify(wish);
  useEffect(() => {
    if (wish === null) {
      setTrial(idle);
      return undefined;
    }
    const controller = new AbortController();
    setTrial({ ...idle, isBusy: true });
    const timer = setTimeout(() => {
      tryPlacement(yardId, planId, taskId, wish, controller.signal).then(
        (tried) => {
          if (!controller.signal.aborted) setTrial({ ...idle, tried });
        },
        (error: unknown) => {
          if (!controller.signal.aborted) setTrial({ ...idle, problem: problemOf(error) });
        },
      );
    }, settleMs);
    return () => {
      clearTimeout(timer);
      controller.abort();
    };
  }, [yardId, planId, taskId, key]);
  return trial;
}
