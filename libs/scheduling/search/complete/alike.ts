import type { Builder, Problem } from '../../model/problem.ts';
import type { Candidate } from './candidates.ts';
import type { Domains } from './domains.ts';
import type { World } from './world.ts';

/** What a builder can do and costs, in one string. */
function kindOf({ abilities, calendar, cost, unlimited }: Builder): string {
  const able = abilities
    .map(({ skill, level, speed, needsSenior }) => [skill, level, speed, needsSenior].join(':'))
    .sort();
  return [able.join(';'), calendar, cost, unlimited].join('/');
}

/**
 * By builder, the kind of those who can stand in for each other: whoever nobody has named is
 * like everybody else of the same abilities, hours and cost; -1 for the others.
 */
function kinds(problem: Problem): number[] {
  const named = new Set([
    ...problem.activities.flatMap(({ fixed }) => fixed?.builders ?? []),
    ...(problem.published?.tasks ?? []).flatMap(({ builders }) => builders),
  ]);
  const numbers = new Map<string, number>();
  return problem.builders.map((builder, b) => {
    if (named.has(b)) return -1;
    const kind = kindOf(builder);
    const number = numbers.get(kind) ?? numbers.size;
    numbers.set(kind, number);
    return number;
  });
}

/** Which candidates differ from one only by builders who stand in for each other. */
export type Alike = (domains: Domains, k: number, c: number) => number[];

/**
 * Builders of one kind who are on nothing placed yet can be swapped in all plans that are left:
 * what holds for a candidate of one holds for that of another. All of them go together, so that
 * what is left stays the same under such swaps.
 */
export function alike(world: World): Alike {
  const kind = kinds(world.problem);
  const used = new Uint8Array(kind.length);
  const crewKey = ({ way }: Candidate): string =>
    way.crew
      .map(({ builder }) =>
        kind[builder] >= 0 && used[builder] === 0 ? -1 - kind[builder] : builder,
      )
      .sort((a, b) => a - b)
      .join();
  return (domains, k, c) => {
    const own = world.domains[k][c];
    if (own.way.crew.length === 0) return [c];
    used.fill(0);
    domains.placed.forEach((at, other) => {
      if (at >= 0) for (const { builder } of world.domains[other][at].way.crew) used[builder] = 1;
    });
    const key = crewKey(own);
    const found: number[] = [];
    const live = domains.live[k];
    for (let i = 0; i < domains.count[k]; i += 1) {
      const other = world.domains[k][live[i]];
      const same =
        other.start === own.start &&
        other.finish === own.finish &&
        other.way.mode === own.way.mode &&
        other.way.overtime === own.way.overtime &&
        other.way.slot === own.way.slot;
      if (same && crewKey(other) === key) found.push(live[i]);
    }
    return found;
  };
}
