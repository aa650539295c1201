import type { Acting } from './acting.ts';
import type { TaskLife, WorkSpan } from './life.ts';

const minutesBetween = (from: string, to: string): number =>
  Math.max(0, (Date.parse(to) - Date.parse(from)) / 60_000);

const tenth = (value: number): number => Math.round(value * 10) / 10;

function doneIn({ start, end, crew }: WorkSpan, { at, pace }: Acting): number {
  return minutesBetween(start, end ?? at) * pace(crew);
}

/**
 * Builder-minutes at the nominal rate that are left at the moment of the report, as far as anybody
 * can tell who was not there. What was said last was so at the beginning of the span that is open
 * or, with none, now; where nobody said anything, all of the work was left when it was begun.
 */
export function leftNow(life: TaskLife, acting: Acting): number {
  const open = life.spans.filter(({ end }) => end === null);
  const { leftMinutes } = life;
  const [before, since] =
    leftMinutes === null ? [acting.task.workMinutes, life.spans] : [leftMinutes, open];
  const done = since.reduce((sum, span) => sum + doneIn(span, acting), 0);
  return tenth(Math.max(0, before - done));
}
