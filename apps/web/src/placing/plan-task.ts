import type { Schema } from '../api/client.ts';
import { clock, day, dayAndClock } from '../show/time.ts';
import { placing as texts } from '../texts/placing.ts';

export type PlanTask = Schema<'PlanTask'>;

type Stretch = Pick<PlanTask, 'start' | 'finish'>;

/** `Tue 3 Nov, 07:30 to 11:15`, with the second day where there is one. */
export function spanWords({ start, finish }: Stretch, zone: string): string {
  const isOneDay = day(start.at, zone) === day(finish.at, zone);
  const until = isOneDay ? clock(finish.at, zone) : dayAndClock(finish.at, zone);
  return texts.span(dayAndClock(start.at, zone), until);
}
