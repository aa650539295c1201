/** What finding a task's place needs to know of it. */
export interface Located {
  readonly id: string;
  readonly partId: string;
  /** The part's space in the beginning. */
  readonly home: string;
  /** The space that the step names. */
  readonly named: string | null;
  /** Parts that it takes; a move takes them along. */
  readonly parts: readonly string[];
  /** Null: no move; `turn`: to where they are. */
  readonly goes: { readonly to: 'turn' } | { readonly to: 'space'; readonly space: string } | null;
}

export interface Where {
  readonly space: string;
  readonly movesTo: string | null;
}

interface Arc {
  readonly from: string;
  readonly to: string;
}

/** Tasks in an order that the arcs allow, with what comes before each; tasks of a circle are left out. */
function ordered<T extends { readonly id: string }>(
  tasks: readonly T[],
  arcs: readonly Arc[],
): readonly (readonly [T, ReadonlySet<string>])[] {
  const known = new Map(tasks.map((task) => [task.id, task]));
  const into = new Map(tasks.map(({ id }) => [id, [] as string[]]));
  const out = new Map(tasks.map(({ id }) => [id, [] as string[]]));
  for (const { from, to } of arcs) {
    if (!known.has(from) || !known.has(to)) continue;
    into.get(to)?.push(from);
    out.get(from)?.push(to);
  }
  const waits = new Map(tasks.map(({ id }) => [id, into.get(id)?.length ?? 0]));
  const before = new Map<string, ReadonlySet<string>>();
  const free = tasks.filter(({ id }) => waits.get(id) === 0);
  const found: [T, ReadonlySet<string>][] = [];
  for (let task = free.shift(); task !== undefined; task = free.shift()) {
    const earlier = new Set<string>();
    for (const from of into.get(task.id) ?? []) {
      earlier.add(from);
      for (const id of before.get(from) ?? []) earlier.add(id);
    }
    before.set(task.id, earlier);
    found.push([task, earlier]);
    for (const to of out.get(task.id) ?? []) {
      const left = (waits.get(to) ?? 0) - 1;
      waits.set(to, left);
      const next = known.get(to);
      if (left === 0 && next !== undefined) free.push(next);
    }
  }
  return found;
}

/**
 * Where each task is done: in the space its step names, else where its part is after the moves
 * that the arcs put before it; a task that no arc orders against a move is done before it.
 */
export function locate(tasks: readonly Located[], arcs: readonly Arc[]): Map<string, Where> {
  const found = new Map<string, Where>();
  const moves = new Map<string, { readonly id: string; readonly space: string }[]>();
  for (const [task, before] of ordered(tasks, arcs)) {
    const past = (moves.get(task.partId) ?? []).filter(({ id }) => before.has(id));
    const space = task.named ?? past.at(-1)?.space ?? task.home;
    const movesTo = task.goes === null ? null : task.goes.to === 'turn' ? space : task.goes.space;
    found.set(task.id, { space, movesTo });
    if (movesTo === null) continue;
    for (const part of task.parts)
      moves.set(part, [...(moves.get(part) ?? []), { id: task.id, space: movesTo }]);
  }
  return found;
}
