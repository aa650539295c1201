import type { Side } from '#cure/material/material.ts';
import type { Task, TaskLink, Workload } from '../../workload/workload.ts';
import type { Milestone } from '../../yard/materials.ts';
import type { Films } from './films.ts';

/** Spaces in which a film may be while a cure clock of it runs. */
export interface Whereabouts {
  /** Before the later task of the link is done, or the milestone is reached. */
  ofLink(link: TaskLink, milestone: Milestone, side: Side): readonly string[];
  /** Before it reaches the milestone. */
  ofFilm(task: Task, milestone: Milestone): readonly string[];
}

type Arc = Pick<TaskLink, 'from' | 'to'>;

/** What the arcs put after a task, at however many removes. */
function followers(arcs: readonly Arc[]): (id: string) => ReadonlySet<string> {
  const next = new Map<string, string[]>();
  for (const { from, to } of arcs) {
    const known = next.get(from);
    if (known === undefined) next.set(from, [to]);
    else known.push(to);
  }
  const found = new Map<string, ReadonlySet<string>>();
  return (id) => {
    const known = found.get(id);
    if (known !== undefined) return known;
    const later = new Set<string>();
    const open = [id];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const to of next.get(at) ?? []) {
        if (later.has(to)) continue;
        later.add(to);
        open.push(to);
      }
    }
    found.set(id, later);
    return later;
  };
}

/**
 * A film is where it was laid until its part is moved: any move counts that may come in time.
 * It does not, where a link puts it before the laying, after the later task, or after a milestone
 * of the film that is never reached before the one asked about. A link of one branch holds only
 * where the tasks of the other branches are not done; no move stands in a branch.
 */
export function whereabouts({ tasks, links, choices }: Workload, films: Films): Whereabouts {
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const opening = links.filter(({ opens }) => opens !== null);
  const after = followers(opening);
  const optional = new Set(
    choices.flatMap(({ branches }) => branches.flatMap((branch) => [...branch.tasks])),
  );
  const conditional = new Set(
    choices.flatMap(({ branches }) => branches.flatMap((branch) => [...branch.links])),
  );
  const sure = opening.filter(
    ({ id, from, to }) => !conditional.has(id) && !optional.has(from) && !optional.has(to),
  );
  const surelyAfter = followers(sure);
  const sureFrom = Map.groupBy(sure, ({ from }) => from);
  const moves = tasks.filter(({ movesTo }) => movesTo !== null);
  const movesOf = new Map<string, Task[]>();
  for (const move of moves) {
    for (const part of move.parts) movesOf.set(part, [...(movesOf.get(part) ?? []), move]);
  }
  /** Whether the move certainly finds the film past the milestone. */
  const tooLate = (move: Task, laid: Task, milestone: Milestone): boolean =>
    (sureFrom.get(laid.id) ?? []).some(({ to, opens, sweep }) => {
      if (opens?.kind !== 'milestone' || sweep === 'same') return false;
      if (to !== move.id && !surelyAfter(to).has(move.id)) return false;
      return films.notBefore(laid.material ?? '', opens.milestone, milestone);
    });
  const spaces = (laid: Task, counts: (move: Task) => boolean): string[] => {
    const found = (movesOf.get(laid.partId) ?? []).filter(
      (move) => move.id !== laid.id && !after(move.id).has(laid.id) && counts(move),
    );
    return [...new Set([laid.space, ...found.map(({ movesTo, space }) => movesTo ?? space)])];
  };
  return {
    ofFilm: (task, milestone) => spaces(task, (move) => !tooLate(move, task, milestone)),
    ofLink: ({ from, to }, milestone, side) => {
      const laid = byId.get(from);
      if (laid === undefined) return [];
      return spaces(laid, (move) => {
        // A move that a window closes on is under way before it does.
        if (move.id === to) return side === 'close';
        if (after(to).has(move.id)) return false;
        return side === 'close' || !tooLate(move, laid, milestone);
      });
    },
  };
}
