import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { proveRoot } from '../../../bounds/root.ts';
import type { Plan, RankValues } from '../../../model/plan.ts';
import type { Problem, Published } from '../../../model/problem.ts';
import { activity, builder, lag, plan, problem, work } from '../../../testing/make.ts';
import { plantedProblem } from '../../../testing/planted.ts';
import { incumbent, type Incumbent } from '../../incumbent.ts';
import { compile } from '../compiled/compiled.ts';
import { decoder as decoderFor, type Decoder } from '../decode/decode.ts';
import { emptyGenome, type Genome } from '../decode/genome.ts';
import { polishEnergy, polishMove, promised, publishedGenome, settleWhole } from './polish.ts';

const worth = (...values: [number, number, number, number]) => ({ values, spread: 0 });

function bestOf(tolerances: readonly number[], ...all: RankValues[]): Incumbent {
  const best = incumbent(tolerances);
  const none: Plan = plan(problem(), []);
  for (const values of all) best.offer(values, () => ({ ...none, values }));
  return best;
}

/** A decoder, and a genome as it stands before the first decode. */
function setUp(of: Problem): { decoder: Decoder; genome: Genome } {
  const compiled = compile(of);
  const { analysis } = proveRoot(compiled);
  return { decoder: decoderFor(compiled, analysis.domains), genome: emptyGenome(compiled) };
}

describe('the energy of a plan', () => {
  it('for the first two ranks counts lateness past the target twentyfold', () => {
    expect(promised(worth(30, 500, 9, 9), 30)).toBe(500);
    expect(promised(worth(31, 500, 9, 9), 30)).toBe(520);
  });

  it('for money is the money, as long as the caps of the earlier ranks are kept', () => {
    const best = bestOf([0, 100, 0], [0, 1000, 70, 0]);
    expect(polishEnergy(2, worth(0, 1100, 60, 5), best)).toBe(60);
    // One minute past the cap of 1100, a hundredth of 1000 doubling it: a tenth of 70 more.
    expect(polishEnergy(2, worth(0, 1101, 60, 5), best)).toBeCloseTo(67);
    expect(polishEnergy(2, worth(1, 1000, 60, 5), best)).toBeGreaterThan(60);
  });

  it('for disturbance minds the cap on money as well', () => {
    const best = bestOf([0, 0, 10], [0, 1000, 70, 8]);
    expect(polishEnergy(3, worth(0, 1000, 80, 6), best)).toBe(6);
    expect(polishEnergy(3, worth(0, 1000, 81, 6), best)).toBeGreaterThan(6);
    expect(polishEnergy(2, worth(0, 1000, 81, 6), best)).toBe(81);
  });
});

const published = (...tasks: [activity: number, start: number, builder: number][]): Published => ({
  tolerance: 10,
  tasks: tasks.map(([a, start, one]) => ({ activity: a, start, builders: [one], weight: 1 })),
});

describe('a settled genome', () => {
  it('that takes over all of the decode gives the same plan again', () => {
    let decoded = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const { problem: of } = plantedProblem(seed, 4 + (seed % 20));
      const { decoder, genome } = setUp(of);
      const { state, present } = decoder;
      const made = (): number[][] =>
        [...present.keys()]
          .filter((a) => present[a] === 1)
          .map((a) => [state.start[a], state.finish[a], state.mode[a], state.crew[a]]);
      if (!decoder.decode(genome)) continue;
      const first = made();
      settleWhole(decoder, genome);
      expect(decoder.decode(genome), `seed ${String(seed)}`).toBe(true);
      expect(made(), `seed ${String(seed)}`).toEqual(first);
      decoded += 1;
    }
    expect(decoded).toBeGreaterThan(20);
  });
});

describe('moves for the later ranks', () => {
  it('give a published task its people and its time back', () => {
    const of = problem({
      activities: [activity('a', [work(60)])],
      published: published([0, 800, 1]),
    });
    const { decoder, genome } = setUp(of);
    expect(decoder.decode(genome)).toBe(true);
    expect(decoder.state.start[0]).toBe(480);
    settleWhole(decoder, genome);
    const changed = emptyGenome(decoder.compiled);
    polishMove(decoder, 3, genome, changed, random(1));
    expect(decoder.decode(changed)).toBe(true);
    expect(Math.abs(decoder.state.start[0] - 800)).toBeLessThanOrEqual(10);
    const [mode] = decoder.compiled.activities[0].modes;
    expect(mode.crews?.[decoder.state.crew[0]].builders).toEqual([1]);
  });

  it('leave alone what is as published', () => {
    const of = problem({
      activities: [activity('a', [work(60)])],
      published: published([0, 485, 0]),
    });
    const { decoder, genome } = setUp(of);
    decoder.decode(genome);
    settleWhole(decoder, genome);
    genome.crew[0] = decoder.state.crew[0];
    const changed = emptyGenome(decoder.compiled);
    polishMove(decoder, 3, genome, changed, random(1));
    expect(changed).toEqual(genome);
  });

  it('find the cheaper of two who are as fast', () => {
    const of = problem({
      builders: [builder('Ada', { cost: 9 }), builder('Bo', { cost: 2 })],
      activities: [activity('a', [work(60)])],
    });
    const { decoder, genome } = setUp(of);
    const [{ crews }] = decoder.compiled.activities[0].modes;
    const payOf = (c: number): number => crews?.[c].pay ?? NaN;
    genome.crew[0] = payOf(0) > payOf(1) ? 0 : 1;
    genome.mode[0] = 0;
    decoder.decode(genome);
    const changed = emptyGenome(decoder.compiled);
    const chance = random(1);
    const pays = Array.from({ length: 40 }, () => {
      polishMove(decoder, 2, genome, changed, chance);
      return payOf(changed.crew[0]);
    });
    expect(new Set(pays)).toContain(120);
    // Now and then the dear one stays, but not as a rule.
    expect(pays.filter((pay) => pay === 120).length).toBeGreaterThan(20);
  });
});

describe('the genome of the published plan', () => {
  it('waits for its starts with its people, what is new behind what it follows', () => {
    const of = problem({
      activities: [activity('a', [work(60)]), activity('b', [work(60)]), activity('c', [work(9)])],
      lags: [lag(0, 1, 0), lag(1, 2, 0)],
      published: published([0, 600, 1], [2, 1930, 0]),
    });
    const compiled = compile(of);
    const genome = publishedGenome(compiled, published([0, 600, 1], [2, 1930, 0]));
    expect([...genome.keys]).toEqual([600, 600, 1930]);
    expect([...genome.wait]).toEqual([600, 0, 1930]);
    const named = [0, 2].map(
      (a) => compiled.activities[a].modes[0].crews?.[genome.crew[a]].builders,
    );
    expect(named).toEqual([[1], [0]]);
    expect(genome.crew[1]).toBe(-1);
  });
});
