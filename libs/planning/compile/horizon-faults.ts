import { fault, type Fault } from '#kernel/error.ts';
import type { Task } from '../workload/workload.ts';
import { pathOf } from '../yard/path.ts';
import type { Yard } from '../yard/yard.ts';
import type { Begun } from './frozen.ts';
import type { Frame } from './time.ts';

/** Refits with work that waits and that the plan cannot see, since they come after its horizon. */
export function horizonFaults(
  yard: Yard,
  tasks: readonly Task[],
  begun: ReadonlyMap<string, Begun>,
  frame: Frame,
): Fault[] {
  const waiting = new Set(tasks.filter(({ id }) => !begun.has(id)).map(({ refitId }) => refitId));
  return yard.boats.flatMap(({ refits }, b) =>
    refits.flatMap(({ id, name, release }, r) =>
      !waiting.has(id) || frame.minuteOf(release) < frame.horizon
        ? []
        : fault(
            'yard.horizon',
            pathOf(['boats', b, 'refits', r, 'release']),
            `${name} is only released on ${release}, and the plan ends ${String(yard.horizonDays)} days after ${frame.origin.replace('.000Z', 'Z')}`,
            { value: release, cure: 'Release it earlier, or raise horizonDays.' },
          ),
    ),
  );
}
