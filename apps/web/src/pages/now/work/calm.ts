import { useCallback, useEffect, useRef, useState } from 'preact/hooks';

/** A gloved hand that hits twice does so within half a second; no source. */
const calmMs = 700;

/** Whether presses count just now. */
export interface Calm {
  readonly isCalm: boolean;
  /** Does it, if presses count; for a moment after it none does. */
  readonly once: (does: () => unknown) => void;
  /** What can be pressed has moved: for a moment no press counts. */
  readonly hold: () => void;
}

/**
 * What is pressed makes way for something else at the same place, Finish for Start; so does what others
 * do. The second half of a double press, or one that was meant for what stood there before, is not to
 * hit it. `shown` names what stands there; nothing does where it is empty.
 */
export function useCalm(shown: string): Calm {
  const before = useRef(shown);
  const until = useRef(0);
  const [, draw] = useState(0);
  const held = (): void => {
    until.current = performance.now() + calmMs;
  };
  if (before.current !== shown) {
    if (before.current !== '') held();
    before.current = shown;
  }
  const hold = useCallback(() => {
    held();
    draw((count) => count + 1);
  }, []);
  const end = until.current;
  useEffect(() => {
    const left = end - performance.now();
    if (left <= 0) return undefined;
    const timer = setTimeout(() => {
      // By the timer, not by a clock that may be a hair behind it.
      if (until.current === end) until.current = 0;
      draw((count) => count + 1);
    }, left);
    return () => {
      clearTimeout(timer);
    };
  }, [end]);
  const isNow = (): boolean => performance.now() >= until.current;
  return {
    isCalm: isNow(),
    hold,
    once: (does) => {
      if (!isNow()) return;
      hold();
      void does();
    },
  };
}
