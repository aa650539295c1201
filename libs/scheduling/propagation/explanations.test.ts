import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { examine, noTally } from './testing/meaning.ts';
import { drawMixed } from './testing/mixed.ts';

describe('arcs, clauses and timetables', () => {
  it('remove nothing that has a solution, and say truly why', () => {
    const tally = noTally();
    for (let seed = 1; seed <= 120; seed++) {
      const rng = random(seed);
      examine(drawMixed(rng), rng, `seed ${seed}`, tally);
    }
    expect(tally.conflicts).toBeGreaterThan(50);
    expect(tally.fixed).toBeGreaterThan(50);
    expect(tally.arcs).toBeGreaterThan(300);
    expect(tally.clauses).toBeGreaterThan(30);
    expect(tally.propagators).toBeGreaterThan(300);
  });
});
