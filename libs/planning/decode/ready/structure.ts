import type { Films } from '../../compile/films/films.ts';
import { whereabouts, type Whereabouts } from '../../compile/films/whereabouts.ts';
import { decidersOf, type Decider } from '../../compile/work/choices.ts';
import { once } from '../../compile/once.ts';
import type { Task, TaskLink, Workload } from '../../workload/workload.ts';

/** What of the work stays as it is while it is done. Tasks by their place in the list. */
export interface Structure {
  readonly place: ReadonlyMap<string, number>;
  readonly into: ReadonlyMap<string, readonly TaskLink[]>;
  readonly outOf: ReadonlyMap<string, readonly TaskLink[]>;
  readonly deciders: readonly Decider[];
  /** Those that take parts somewhere; work a barrier; leave something open to dust; keep tools; use up stock. */
  readonly movers: readonly number[];
  readonly barriers: readonly number[];
  readonly open: readonly number[];
  readonly dusty: readonly number[];
  readonly tools: readonly number[];
  readonly consumers: readonly number[];
  readonly ofPart: ReadonlyMap<string, readonly number[]>;
  whereabouts(films: Films): Whereabouts;
}

/** Whether it leaves something that dust may not reach. */
export const leavesOpen = ({ material, sensitiveUntil }: Task): boolean =>
  material !== null || sensitiveUntil !== null;

/** What a structure is made from, field by field. */
const lasting = [
  'id',
  'refitId',
  'partId',
  'parts',
  'space',
  'movesTo',
  'material',
  'air',
  'sensitiveUntil',
  'coveredBy',
  'tools',
  'holds',
  'consumes',
  'barrier',
  'fixedStart',
] as const satisfies readonly (keyof Task)[];

/** Of another state of the same work: what is not a life's is the very same. */
const isSame = (a: Task, b: Task): boolean =>
  a === b || lasting.every((field) => a[field] === b[field]);

/** Each place is looked up once: the order of the work does not change. */
function remembered(where: Whereabouts): Whereabouts {
  const ofLink = new Map<string, readonly string[]>();
  const ofFilm = new Map<string, readonly string[]>();
  return {
    ofLink: (link, milestone, side) =>
      once(ofLink, `${link.id} ${milestone} ${side}`, () => where.ofLink(link, milestone, side)),
    ofFilm: (task, milestone) =>
      once(ofFilm, `${task.id} ${milestone}`, () => where.ofFilm(task, milestone)),
  };
}

function made(workload: Workload): Structure {
  const { tasks, links } = workload;
  const those = (is: (task: Task) => boolean): number[] =>
    tasks.flatMap((task, k) => (is(task) ? [k] : []));
  const known = new WeakMap<Films, Whereabouts>();
  return {
    place: new Map(tasks.map(({ id }, k) => [id, k])),
    into: Map.groupBy(links, ({ to }) => to),
    outOf: Map.groupBy(links, ({ from }) => from),
    deciders: decidersOf(workload),
    movers: those(({ movesTo }) => movesTo !== null),
    barriers: those(({ barrier }) => barrier !== null),
    open: those(leavesOpen),
    dusty: those(({ air }) => air === 'dusty'),
    tools: those((task) => task.tools.length + task.holds.length > 0),
    consumers: those(({ consumes }) => consumes.length > 0),
    ofPart: Map.groupBy(tasks.keys(), (k) => tasks[k].partId),
    whereabouts: (films) => {
      const before = known.get(films);
      if (before !== undefined) return before;
      const where = remembered(whereabouts(workload, films));
      known.set(films, where);
      return where;
    },
  };
}

const structures = new WeakMap<
  readonly TaskLink[],
  { readonly tasks: readonly Task[]; readonly structure: Structure }
>();

/** That of the workload; the same for all states of one work, which share their links. */
export function structureOf(workload: Workload): Structure {
  const { tasks, links } = workload;
  const known = structures.get(links);
  const fits =
    known?.tasks.length === tasks.length && known.tasks.every((task, k) => isSame(task, tasks[k]));
  const structure = fits ? known.structure : made(workload);
  structures.set(links, { tasks, structure });
  return structure;
}
