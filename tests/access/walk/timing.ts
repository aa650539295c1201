import { ruleOf } from '#access/table.ts';
import type { World } from '../world/make-world.ts';
import { asking } from './ask.ts';
import { person } from './callers.ts';
import { type Case, casesOf } from './cases.ts';
import { documentsOf } from './documents.ts';

/** Milliseconds that one operation took, each round once for another yard's record and once for none. */
export interface Beside {
  readonly face: string;
  readonly theirs: readonly number[];
  readonly missing: readonly number[];
}

/**
 * Reads by id of what is another yard's and of what is nowhere, interleaved, the first of each pair in
 * turn; the foreman asks. What a statement costs that meets no row is the same for both, or time would tell.
 */
export async function timesBeside(world: World, rounds: number): Promise<Beside[]> {
  const { all, schemas } = await documentsOf(world);
  const ask = asking(world, schemas);
  const foreman = person(world.here, 'foreman');
  const timed = async (one: Case): Promise<number> => {
    const begun = performance.now();
    await ask(one);
    return performance.now() - begun;
  };
  const pairs = all
    .filter(({ face }) => face.startsWith('GET ') && !face.endsWith('/events'))
    .flatMap((operation): [Case, Case][] => {
      const rule = ruleOf(operation.face);
      const cases = rule ? casesOf(operation, rule, [foreman], world) : [];
      const of = (record: string): Case | undefined =>
        cases.find(({ yard, target }) => yard === 'this' && target.record === record);
      const [theirs, missing] = [of('other’s'), of('missing')];
      return theirs?.expected === 'not-found' && missing ? [[theirs, missing]] : [];
    });
  const times = pairs.map(([{ operation }]) => ({
    face: operation.face,
    theirs: [] as number[],
    missing: [] as number[],
  }));
  for (let round = 0; round < rounds; round += 1) {
    for (const [k, [theirs, missing]] of pairs.entries()) {
      const { theirs: a, missing: b } = times[k];
      if (round % 2 === 0) {
        a.push(await timed(theirs));
        b.push(await timed(missing));
      } else {
        b.push(await timed(missing));
        a.push(await timed(theirs));
      }
    }
  }
  return times;
}
