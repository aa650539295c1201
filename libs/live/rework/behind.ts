import { standingOf } from '#planning/compile/work/choices.ts';
import type { Task, TaskLink } from '#planning/workload/workload.ts';
import type { WorkEdits } from '../edits/edits.ts';
import type { Copies } from './copies.ts';
import { isWet } from './films.ts';
import type { Ground } from './ground-up.ts';
import { order } from './preparing.ts';
import type { Footing } from './footing.ts';
import type { Plight } from './plight.ts';

type Behind = Pick<WorkEdits, 'addLinks' | 'removeLinks' | 'branchLinks'>;

const waits = ({ state }: Task): boolean => state === 'waiting' || state === 'paused';

/** Of what was copied, what leads to no other copy. */
function ends(copies: Copies): string[] {
  const from = new Set(copies.links.map((link) => link.from));
  return copies.tasks.map(({ id }) => id).filter((id) => !from.has(id));
}

/**
 * What waits behind the work that is done again waits for that instead, by the same windows and in
 * the same branches. Where a film stays and only its face is prepared, what is to go on it waits for
 * the preparation, since its own window does not count any more.
 */
export function behind(
  { again, task, nature }: Plight,
  { workload, mark }: Ground,
  copies: Copies,
  footing: Footing,
  back: Task | null,
): Behind {
  const byId = new Map(workload.tasks.map((one) => [one.id, one]));
  const { dropped, droppedLinks } = standingOf(workload);
  const redone = new Set(again.map(({ id }) => id));
  const on = (id: string): boolean => {
    const to = byId.get(id);
    return to !== undefined && waits(to) && !dropped.has(id) && !copies.idOf.has(id);
  };
  const moved = workload.links.filter(
    ({ id, from, to }) => redone.has(from) && on(to) && !droppedLinks.has(id),
  );
  const links = moved.map((link) => ({
    ...link,
    id: `${link.id}.again-${mark}`,
    from: copies.idOf.get(link.from) ?? link.from,
  }));
  const branchLinks = workload.choices.flatMap((choice) =>
    choice.branches.flatMap((branch) =>
      moved
        .filter(({ id }) => branch.links.includes(id))
        .map(({ id }) => ({
          choice: choice.id,
          branch: branch.id,
          link: `${id}.again-${mark}`,
        })),
    ),
  );
  const left = nature.depth === 'face' ? faceLinks(task, footing, workload.links, byId, on) : null;
  const lastOnes =
    back === null ? [] : [...ends(copies), ...footing.tasks.slice(-1).map(({ id }) => id)];
  const turned =
    back === null
      ? []
      : [
          ...lastOnes.map((id) => order(`${id}..${back.id}`, id, back.id)),
          ...frontier(workload.links, byId, task.partId, on).map((to) =>
            order(`${back.id}..${to}`, back.id, to),
          ),
        ];
  return {
    addLinks: [...links, ...(left?.addLinks ?? []), ...turned],
    removeLinks: [...moved.map(({ id }) => id), ...(left?.removeLinks ?? [])],
    branchLinks,
  };
}

/** What waits on the part for something that has begun: it is done with the part as it lies now. */
function frontier(
  links: readonly TaskLink[],
  byId: ReadonlyMap<string, Task>,
  partId: string,
  on: (id: string) => boolean,
): string[] {
  const found = links.filter(({ from, to }) => {
    const before = byId.get(from);
    return before !== undefined && !waits(before) && byId.get(to)?.partId === partId && on(to);
  });
  return [...new Set(found.map(({ to }) => to))];
}

/** Links from a film that stays: its window to the next coat is replaced by the preparation. */
function faceLinks(
  task: Task,
  footing: Footing,
  links: readonly TaskLink[],
  byId: ReadonlyMap<string, Task>,
  on: (id: string) => boolean,
): Pick<Behind, 'addLinks' | 'removeLinks'> {
  const out = links.filter(({ from, to }) => from === task.id && on(to));
  const last = footing.tasks.at(-1);
  const coated = new Set(footing.links.map(({ to }) => to));
  const shut = out.filter(({ to, closes }) => {
    const next = byId.get(to);
    return closes !== null && next !== undefined && isWet(next);
  });
  return {
    removeLinks: shut.map(({ id }) => id),
    addLinks:
      last === undefined
        ? []
        : [...new Set(out.map(({ to }) => to))]
            .filter((to) => !coated.has(to))
            .map((to) => order(`${last.id}..${to}`, last.id, to)),
  };
}
