import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { weekStart } from '#calendar/local-date.ts';
import { dateIn } from '../../show/time.ts';
import type { Day } from './days.ts';

interface WayProps {
  /** What the planks, or the rows of the table, are drawn in. */
  readonly main: RefObject<HTMLElement | null>;
  /** Those that are shown; others when they are. */
  readonly days: readonly Day[];
  /** Another whenever planks are drawn anew. */
  readonly drawn: unknown;
  readonly zone: string;
  /** Shows a day, and the week from `from` on, where it is another. */
  readonly onDay: (date: string, from?: string) => void;
}

interface Way {
  readonly go: (moment: string, taskId: string) => void;
  /** Goes there no more: somebody turned to other days meanwhile. */
  readonly leave: () => void;
  /** The last way led to a task that is not there. */
  readonly isStray: boolean;
}

/** Leads from a sentence to its plank, in whichever week that is, and says where there is none. */
export function useWay({ main, days, drawn, zone, onDay }: WayProps): Way {
  const goal = useRef<{ readonly taskId: string; readonly date: string }>(undefined);
  const [isStray, setStray] = useState(false);
  const reach = (): void => {
    const { current: wanted } = goal;
    // Its days are not there yet.
    if (wanted === undefined || days.every(({ date }) => date !== wanted.date)) return;
    goal.current = undefined;
    const plank = main.current?.querySelector<HTMLElement>(
      `button[data-task="${CSS.escape(wanted.taskId)}"]`,
    );
    setStray(plank === null || plank === undefined);
    plank?.focus();
    plank?.scrollIntoView({ block: 'center', inline: 'center' });
  };
  useEffect(reach, [drawn]);
  const go = (moment: string, taskId: string): void => {
    const date = dateIn(moment, zone);
    goal.current = { taskId, date };
    setStray(false);
    const isShown = days.some((one) => one.date === date);
    onDay(date, isShown ? undefined : weekStart(date));
    if (isShown) requestAnimationFrame(reach);
  };
  const leave = (): void => {
    goal.current = undefined;
  };
  return { go, leave, isStray };
}
