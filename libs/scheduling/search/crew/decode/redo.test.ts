import { describe, expect, it } from 'vitest';
import { random as seeded } from '#kernel/random.ts';
import { proveRoot } from '../../../bounds/root.ts';
import { check } from '../../../checker/check.ts';
import { plantedProblem } from '../../../testing/planted.ts';
import { compile } from '../compiled/compiled.ts';
import { settle } from '../search/moves.ts';
import { planOf } from '../search/plan-of.ts';
import { newWorth, worthOf } from '../search/worth.ts';
import { emptyCourse } from './course.ts';
import { decoder as decoderFor } from './decode.ts';
import { emptyGenome } from './genome.ts';

describe('a decode that goes on from a prefix of another', () => {
  it('gives plans that the checker accepts, and the recorded plan where it keeps all', () => {
    let redone = 0;
    for (let seed = 0; seed < 30; seed += 1) {
      const { problem: of } = plantedProblem(seed, 6 + (seed % 24));
      const compiled = compile(of);
      const decoder = decoderFor(compiled, proveRoot(compiled).analysis.domains);
      const genome = emptyGenome(compiled);
      const random = seeded(seed);
      const ends = new Float64Array(of.refits.length);
      const worth = newWorth();
      if (!decoder.decode(genome)) continue;
      settle(decoder, genome);
      const course = emptyCourse(compiled);
      decoder.record(course);
      const lists = (): number[][] =>
        [...decoder.state.open, ...decoder.state.dust, ...decoder.state.busy].map(
          ({ count, starts, ends: until }) =>
            Array.from({ length: count }, (_, i) => starts[i] + until[i] / 1e6),
        );
      const first = lists();
      for (let k = 0; k < 8; k += 1) {
        const kept = decoder.floor + random.below(course.height - decoder.floor + 1);
        const trial = { ...genome, keys: genome.keys.map((key) => key + 3 * random.unit()) };
        if (decoder.redo(course, kept, trial, null)) {
          worthOf(decoder, ends, true, worth);
          const plan = planOf(decoder, trial.branch, ends, worth);
          expect(check(of, plan), `seed ${String(seed)}`).toEqual([]);
          redone += 1;
        }
        expect(decoder.redo(course, course.height, genome, null)).toBe(true);
        expect([...decoder.state.start], `seed ${String(seed)}`).toEqual([...course.start]);
        // Taking back and placing again leaves no trace in what people, dust and films take up.
        expect(
          lists().map((list) => list.toSorted((a, b) => a - b)),
          `seed ${String(seed)}`,
        ).toEqual(first.map((list) => list.toSorted((a, b) => a - b)));
      }
    }
    expect(redone).toBeGreaterThan(80);
  });
});
