import { describe, expect, it } from 'vitest';
import { random as seeded } from '#kernel/random.ts';
import { proveRoot } from '../../../bounds/root.ts';
import { check } from '../../../checker/check.ts';
import { activity, mode, problem } from '../../../testing/make.ts';
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
    let repeated = 0;
    let back = 0;
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
        // Nothing else is asked for: all the rest would go where it was.
        if (course.height > decoder.floor + 1) {
          expect(decoder.redo(course, decoder.floor, course.wish, () => false)).toBe(
            !decoder.isBack,
          );
          back += decoder.isBack ? 1 : 0;
        }
        expect(decoder.redo(course, course.height, genome, null)).toBe(true);
        expect([...decoder.state.start], `seed ${String(seed)}`).toEqual([...course.start]);
        // Taking back and placing again leaves no trace in what people, dust and films take up.
        expect(
          lists().map((list) => list.toSorted((a, b) => a - b)),
          `seed ${String(seed)}`,
        ).toEqual(first.map((list) => list.toSorted((a, b) => a - b)));
      }
      repeated += decoder.repeats;
    }
    expect(redone).toBeGreaterThan(80);
    expect(repeated).toBeGreaterThan(0);
    expect(back).toBeGreaterThan(0);
  });

  it('keeps to the modes chosen for the stocks, whatever was recorded', () => {
    const way = (minutes: number, amount: number) =>
      mode({ duration: minutes, consumes: [{ stock: 0, amount }] });
    const of = problem({
      stocks: [{ id: 'resin', total: 9, source: '' }],
      activities: [0, 1, 2].map((a) => activity(`a${String(a)}`, [way(10, 5), way(50, 2)])),
    });
    const compiled = compile(of);
    const decoder = decoderFor(compiled, proveRoot(compiled).analysis.domains);
    const genome = emptyGenome(compiled);
    genome.keys.set([0, 1, 2]);
    genome.mode.set([1, 0, 1]);
    expect(decoder.decode(genome)).toBe(true);
    const course = emptyCourse(compiled);
    decoder.record(course);
    // Both quick together would take 12 of the 9, so that one of them has to be made slow.
    const trial = { ...genome, mode: Int16Array.from([0, 0, 1]) };
    let built = 0;
    for (let k = 0; k < 20; k += 1) {
      if (!decoder.redo(course, 0, trial, null)) continue;
      built += 1;
      const used = [...decoder.state.mode].reduce((sum, m) => sum + [5, 2][m], 0);
      expect(used).toBeLessThanOrEqual(9);
    }
    expect(built).toBe(20);
  });
});
