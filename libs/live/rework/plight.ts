import { DomainError } from '#kernel/error.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { defects, type SnagKind } from './defects.ts';
import { extentOf, isWet, partOf, type Wet } from './films.ts';
import { fallsWith, partWork, type PartWork } from './redone.ts';
import type { ReworkCause } from './rework.ts';

export interface ReworkInput {
  readonly yard: Yard;
  readonly workload: Workload;
  /** The task whose work is at fault. */
  readonly taskId: string;
  readonly cause: Exclude<ReworkCause, 'missed-window'>;
  /** Of a snag. */
  readonly defect?: SnagKind | undefined;
  /** How much of the part; null: all that the task covers. */
  readonly areaM2: number | null;
  /** A uuid; what is added is named by it. */
  readonly reworkId: string;
}

/** How deep it goes, and whether something soft has to come off first. */
interface Nature {
  readonly depth: 'film' | 'skin' | 'face' | 'work';
  readonly soft: boolean;
}

/** What a rework is worked out from. */
export interface Plight {
  readonly input: ReworkInput;
  readonly task: Task;
  readonly nature: Nature;
  readonly work: PartWork;
  /** Done work that falls with it, without the task itself. */
  readonly fallen: readonly Task[];
  /** What is done again. */
  readonly again: readonly Task[];
  /** Of it, done work that does not count any more: a film that stays below its own repetition does. */
  readonly redo: readonly string[];
  /** Films that come off, in the order in which they were laid. */
  readonly cut: readonly Wet[];
}

function natureOf({ cause, defect }: ReworkInput, task: Task): Nature {
  if (!isWet(task)) return { depth: 'work', soft: false };
  if (cause === 'abandoned') return { depth: 'film', soft: false };
  if (cause === 'not-kicked') return { depth: 'film', soft: true };
  const { depth, soft } = defects[defect ?? 'damage'];
  // Wet work in the wrong place comes off like any film.
  return { depth: depth === 'work' ? 'film' : depth, soft };
}

const begun: ReadonlySet<Task['state']> = new Set(['working', 'done', 'redo']);

function taskOf({ workload, taskId, cause }: ReworkInput): Task {
  const task = workload.tasks.find(({ id }) => id === taskId);
  if (task === undefined) throw new DomainError('record.missing', `There is no task "${taskId}"`);
  const ripe = cause === 'snag' ? task.state === 'done' : begun.has(task.state);
  if (ripe) return task;
  const again = task.state === 'redo' ? 'is being done again already' : 'has not been done';
  throw new DomainError('snag.state', `"${task.name}" (${task.id}) ${again}`, {
    cure: 'Name the done task whose work is at fault.',
  });
}

/** Throws record.missing, and snag.state where nothing can be at fault or something over it is under way. */
export function plightOf(input: ReworkInput): Plight {
  const { yard, workload, areaM2 } = input;
  const task = taskOf(input);
  const nature = natureOf(input, task);
  const work = partWork(workload, task.partId);
  const extent = extentOf(task, partOf(yard, task.partId));
  const whole = areaM2 === null || (extent !== null && areaM2 >= extent);
  const fallen = fallsWith(work, task, whole);
  const again = nature.depth === 'face' ? fallen : [task, ...fallen];
  const cut = (nature.depth === 'film' ? again : fallen).filter(isWet);
  const gone = nature.depth === 'skin' ? fallen : again;
  const redo = gone.filter(({ state }) => state === 'done').map(({ id }) => id);
  return { input, task, nature, work, fallen, again, redo, cut };
}
