import { fault, type Fault } from '#kernel/error.ts';
import { locate } from '../../workload/locate.ts';
import type { Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Begun } from '../work/frozen.ts';
import { spaceName, stepPath, taskWords } from '../trace/rows.ts';

/** Work on a part in a space that no move has taken it to by then. */
export function placeFaults(
  yard: Yard,
  { tasks, links }: Workload,
  begun: ReadonlyMap<string, Begun>,
): Fault[] {
  const homes = new Map(
    yard.boats.flatMap(({ refits }) =>
      refits.flatMap(({ parts }) => parts.map(({ id, space }) => [id, space] as const)),
    ),
  );
  const where = locate(
    tasks.map(({ id, partId, parts, movesTo }) => ({
      id,
      partId,
      home: homes.get(partId) ?? '',
      named: null,
      parts,
      goes: movesTo === null ? null : { to: 'space', space: movesTo },
    })),
    links.filter(({ opens }) => opens !== null),
  );
  return tasks.flatMap((task) => {
    const there = where.get(task.id)?.space ?? task.space;
    if (task.parts.length === 0 || begun.has(task.id) || there === task.space) return [];
    return fault(
      'yard.place',
      stepPath(yard, task),
      `${taskWords(yard, task)} is to be done in ${spaceName(yard, task.space)}, but the part is then in ${spaceName(yard, there)}`,
      {
        value: task.space,
        cure: 'Add a step that carries the part there, or say that the step is not on the part.',
      },
    );
  });
}
