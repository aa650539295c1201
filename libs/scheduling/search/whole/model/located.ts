import { not, type Condition } from './draft.ts';
import type { Orders } from './orders.ts';
import type { Ground } from './ground.ts';
import type { Steps } from './steps.ts';
import type { WayOf, Work } from './works.ts';

/** Who may move a part. */
export interface Mover {
  readonly work: Work;
  /** That it is done and moves the part; null: in every plan. */
  readonly moves: Condition;
  /** The same for each space that it may move it to. */
  readonly to: ReadonlyMap<number, Condition>;
}

/** That the work is done in one of these of its ways. */
export const doneIn = ({ draft }: Ground, work: Work, ways: readonly WayOf[]): Condition =>
  ways.length === work.ways.length
    ? work.present
    : (draft.either(ways.map(({ when }) => when)) ?? work.present);

export function moversOf(ground: Ground, part: number, works: readonly Work[]): Mover[] {
  const { activities } = ground.problem;
  return works.flatMap((work): Mover[] => {
    const { parts, modes } = activities[work.activity];
    const moving = work.ways.filter(({ mode }) => modes[mode].movesTo !== null);
    if (!parts.includes(part) || moving.length === 0) return [];
    const spaces = new Set(moving.flatMap(({ mode }) => modes[mode].movesTo ?? []));
    const to = new Map(
      [...spaces].map((space): [number, Condition] => [
        space,
        doneIn(
          ground,
          work,
          moving.filter(({ mode }) => modes[mode].movesTo === space),
        ),
      ]),
    );
    return [{ work, moves: doneIn(ground, work, moving), to }];
  });
}

const negated = (literal: Condition | false): Condition | false => {
  if (literal === false) return null;
  return literal === null ? false : not(literal);
};

/** Where the last move before a work has taken the part, or where it was at first, is where the work is done. */
function locate(
  ground: Ground,
  part: number,
  work: Work,
  space: number,
  there: Condition,
  movers: readonly Mover[],
  orders: Orders,
): void {
  const { problem, draft } = ground;
  const others = movers.filter((mover) => mover.work !== work);
  const sources: Condition[] = [];
  const source = (last: Mover | null): void => {
    const chosen = draft.boolean();
    sources.push(chosen);
    if (last !== null) {
      draft.implies([chosen], last.to.get(space) ?? null);
      draft.implies([chosen], orders.before(last.work, work));
    }
    for (const { work: other, moves } of others) {
      if (other === last?.work) continue;
      draft.implies(
        [chosen, moves],
        last === null ? false : orders.before(other, last.work),
        negated(orders.before(other, work)),
      );
    }
  };
  if (problem.parts[part].space === space) source(null);
  for (const mover of others)
    if (mover.to.has(space) && orders.before(mover.work, work) !== false) source(mover);
  draft.implies([there], ...sources);
}

/** Work on a part that moves is done where it is; frozen work was. */
export function* addLocations(ground: Ground, works: readonly Work[], orders: Orders): Steps<void> {
  const { activities, parts } = ground.problem;
  for (const part of parts.keys()) {
    yield;
    const movers = moversOf(ground, part, works);
    if (movers.length === 0) continue;
    for (const work of works) {
      const { parts: own, modes } = activities[work.activity];
      if (work.frozen || !own.includes(part)) continue;
      const spaces = new Set(work.ways.flatMap(({ mode }) => modes[mode].space ?? []));
      for (const space of spaces) {
        const ways = work.ways.filter(({ mode }) => modes[mode].space === space);
        locate(ground, part, work, space, doneIn(ground, work, ways), movers, orders);
      }
    }
  }
}
