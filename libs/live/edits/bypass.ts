import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Moment } from '#planning/yard/procedures.ts';

/** A link made in the place of a way through tasks that are gone; `ways` are those whose branches it came by. */
export interface Bypass {
  readonly link: TaskLink;
  /** Tasks and links of the way: where one stands in a branch, the new link does too. */
  readonly ways: readonly string[];
}

export interface Bypassed {
  /** Of the links before, those that touch no task that is gone. */
  readonly kept: readonly TaskLink[];
  readonly made: readonly Bypass[];
}

/** Ids of links that hold only where a branch of a choice is taken. */
export const linksInBranches = ({ choices }: Pick<Workload, 'choices'>): ReadonlySet<string> =>
  new Set(choices.flatMap(({ branches }) => branches.flatMap(({ links }) => links)));

type Bounds = Pick<TaskLink, 'opens' | 'closes' | 'sweep'>;

const readsFilm = ({ opens, closes }: Bounds): boolean =>
  opens?.kind === 'milestone' || closes?.kind === 'milestone';

/** One wait after the other; a milestone is later than any order by itself. */
function oneAfterOther(first: Moment | null, second: Moment | null): Moment {
  if (first?.kind === 'milestone') return first;
  const minutes = (first?.minutes ?? 0) + (second?.kind === 'after' ? second.minutes : 0);
  return { kind: 'after', minutes };
}

/**
 * What holds between the neighbours of a task that is gone. The same film on the part, only
 * laid earlier: it keeps its window. Else it waits for as long as the task would have.
 */
function across(into: TaskLink, out: TaskLink, from: Task | undefined, gone: Task): Bounds {
  const sameFilm =
    gone.material !== null && from?.material === gone.material && from.partId === gone.partId;
  if (sameFilm && readsFilm(out)) return { opens: out.opens, closes: out.closes, sweep: out.sweep };
  return { opens: oneAfterOther(into.opens, out.opens), closes: null, sweep: 'unknown' };
}

const sameMoment = (a: Moment | null, b: Moment | null): boolean =>
  JSON.stringify(a) === JSON.stringify(b);
const isPlain = ({ opens, closes }: Bounds): boolean =>
  closes === null && opens?.kind === 'after' && opens.minutes === 0;

/** Whether a link that always holds says already what the new one would. */
function says(link: TaskLink, from: string, to: string, bounds: Bounds): boolean {
  if (link.from !== from || link.to !== to) return false;
  if (isPlain(bounds)) return link.opens !== null;
  return sameMoment(link.opens, bounds.opens) && sameMoment(link.closes, bounds.closes);
}

/**
 * The links without the tasks `gone`: whatever came before one of them still comes before what came
 * after it. A closing bound into or out of a task that is gone goes with it, unless it is of the same
 * film (see `across`). `tasks` are all, those that are gone among them; `inBranches` are links that
 * hold only where a branch is taken.
 */
export function bypass(
  links: readonly TaskLink[],
  gone: ReadonlySet<string>,
  tasks: ReadonlyMap<string, Task>,
  inBranches: ReadonlySet<string>,
): Bypassed {
  if (gone.size === 0) return { kept: links, made: [] };
  const taken = new Set(links.map(({ id }) => id));
  const touches = ({ from, to }: TaskLink): boolean => gone.has(from) || gone.has(to);
  const kept = links.filter((link) => !touches(link));
  const always = kept.filter(({ id }) => !inBranches.has(id));
  let near: Bypass[] = links.filter(touches).map((link) => ({ link, ways: [link.id] }));
  for (const id of gone) {
    const task = tasks.get(id);
    const into = near.filter(({ link }) => link.to === id && link.from !== id);
    const out = near.filter(({ link }) => link.from === id && link.to !== id);
    near = near.filter(({ link }) => link.from !== id && link.to !== id);
    if (task === undefined) continue;
    for (const one of into) {
      for (const other of out) {
        if (one.link.opens === null || other.link.opens === null) continue;
        const [from, to] = [one.link.from, other.link.to];
        if (from === to) continue;
        const bounds = across(one.link, other.link, tasks.get(from), task);
        const ways = [...new Set([...one.ways, ...other.ways, id])];
        const known = [...always, ...near.map(({ link }) => link)];
        if (known.some((link) => says(link, from, to, bounds))) continue;
        near.push({
          link: { id: freeId(`${from}..${to}`, taken), from, to, ...bounds, setBy: 'job' },
          ways,
        });
      }
    }
  }
  return { kept, made: near };
}

function freeId(wanted: string, taken: Set<string>): string {
  let id = wanted;
  for (let k = 2; taken.has(id); k += 1) id = `${wanted}~${String(k)}`;
  taken.add(id);
  return id;
}
