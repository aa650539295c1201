import { random as seeded } from '#kernel/random.ts';
import type { Plan, SearchState, SolveStatus } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import type { Compiled } from './compiled.ts';
import { decoder as decoderFor, type Windows } from './decode.ts';
import { copyGenome, emptyGenome, type Genome } from './genome.ts';
import { causesOf, cross, move, mutate, settle, type Causes } from './moves.ts';
import { planOf, worthOf, type Worth } from './plan-of.ts';
import { ruleGenome, tails } from './rules.ts';
import { warmGenomes } from './warm.ts';

/** A running search: `step` does so many decodes more and shows where it stands. */
export interface CrewSearch {
  step(iterations: number): SearchState & { readonly foundAt: number };
}

interface Member {
  readonly genome: Genome;
  energy: number;
}

/** Decodes by rule before breeding starts; also the size of the population. */
const POPULATION = 48;
/** Decodes of one stretch of breeding, and of one stretch of annealing. */
const BREEDING = 1500;
const ANNEALING = 900;
/** A minute of lateness counts as so many minutes of finish while the search is guided. */
const LATE = 20;
/** Of the energy: what annealing accepts at first with probability 1/e. Measured best of 0.0005 to 0.008. */
const HEAT = 0.008;
/** Fruitless rounds after which the population is made anew. */
const PATIENCE = 3;

/** What is proved before the search begins. */
export interface SearchRoot {
  readonly compiled: Compiled;
  readonly windows: Windows;
  /** Lower bounds of the ranks, at which the search is done. */
  readonly bounds: readonly [number, number];
}

/**
 * Search over genomes by decodes: rules first, then breeding and annealing in turn.
 * Deterministic: all chance comes from `seed`, and the stretches are counted in decodes.
 */
export function crewSearch(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  root: SearchRoot,
): CrewSearch {
  const { compiled, windows, bounds } = root;
  const random = seeded(seed);
  const decoder = decoderFor(compiled, windows);
  const n = problem.activities.length;
  const tail = tails(compiled);
  const ends = new Float64Array(problem.refits.length);
  const worth: Worth = { late: 0, finishes: 0, spread: 0 };
  const population: Member[] = [];
  const trial = emptyGenome(compiled);
  const current = emptyGenome(compiled);
  const bestGenome = emptyGenome(compiled);
  const blamed = new Float64Array(n);
  const weights = problem.refits.reduce((sum, refit) => sum + refit.weight, 0);
  const spreadWeight = (0.02 * Math.max(1, weights)) / Math.max(1, n);
  const target = bounds[0] + problem.tolerances[0];

  let iterations = 0;
  let plan: Plan | null = null;
  let leastLate = Infinity;
  let foundAt = 0;
  let rule = 0;
  let phase: 'rules' | 'breeding' | 'annealing' = 'rules';
  let left = POPULATION;
  let failures = 0;
  let fruitless = 0;
  let improved = false;
  let energy = Infinity;
  let temperature = 0;
  let causes: Causes | null = null;
  let currentPresent: Uint8Array = new Uint8Array(n);

  const optimal = (): boolean =>
    plan !== null && plan.values[0] <= bounds[0] && plan.values[1] <= bounds[1];

  const keep = (genome: Genome): void => {
    const cap = Math.min(leastLate, worth.late) + problem.tolerances[0];
    const better =
      plan === null ||
      (worth.late <= cap &&
        (plan.values[0] > cap ||
          worth.finishes < plan.values[1] ||
          (worth.finishes === plan.values[1] && worth.late < plan.values[0])));
    leastLate = Math.min(leastLate, worth.late);
    if (!better) return;
    plan = planOf(decoder, genome.branch, ends, worth);
    foundAt = iterations;
    improved = true;
    copyGenome(genome, bestGenome);
    settle(decoder, bestGenome);
  };

  /** One decode; the energy guides, the incumbent is kept by the exact ranks. */
  const evaluate = (genome: Genome): number => {
    iterations += 1;
    if (!decoder.decode(genome)) {
      blamed[decoder.blame] += 1;
      return Infinity;
    }
    worthOf(decoder, ends, worth);
    keep(genome);
    return LATE * Math.max(0, worth.late - target) + worth.finishes + spreadWeight * worth.spread;
  };

  /** What could not be placed goes earlier the next time, together with all that leads to it. */
  const hurry = (genome: Genome): void => {
    for (let i = compiled.order.topological.length - 1; i >= 0; i -= 1) {
      const a = compiled.order.topological[i];
      let pull = blamed[a];
      for (const b of compiled.order.after[a]) pull = Math.max(pull, blamed[b] * 0.999);
      blamed[a] = pull;
    }
    for (let a = 0; a < n; a += 1) genome.keys[a] -= blamed[a] * compiled.horizon * 0.02;
  };

  const insert = (genome: Genome, value: number): void => {
    if (population.length < POPULATION) {
      const member = { genome: emptyGenome(compiled), energy: value };
      copyGenome(genome, member.genome);
      population.push(member);
      return;
    }
    // Two plans of one energy are taken to be the same plan.
    if (population.some((member) => Math.abs(member.energy - value) < 1e-6)) return;
    let worst = population[random.below(population.length)];
    for (let k = 0; k < 5; k += 1) {
      const other = population[random.below(population.length)];
      if (other.energy > worst.energy) worst = other;
    }
    if (value >= worst.energy) return;
    copyGenome(genome, worst.genome);
    worst.energy = value;
  };

  const parent = (): Member => {
    const a = population[random.below(population.length)];
    const b = population[random.below(population.length)];
    return a.energy <= b.energy ? a : b;
  };

  const byRule = (): void => {
    ruleGenome(compiled, windows, tail, rule, random, trial);
    if (failures > 0) hurry(trial);
    rule += 1;
    const value = evaluate(trial);
    if (value === Infinity) {
      failures += 1;
      return;
    }
    settle(decoder, trial);
    insert(trial, value);
  };

  const breed = (): void => {
    cross(decoder, parent().genome, parent().genome, trial, random);
    mutate(decoder, trial, random);
    const value = evaluate(trial);
    if (value === Infinity) return;
    settle(decoder, trial);
    insert(trial, value);
  };

  const beginAnnealing = (): void => {
    const from = fruitless % 2 === 0 ? bestGenome : parent().genome;
    copyGenome(from, current);
    energy = Infinity;
    causes = null;
    temperature = 1;
  };

  const anneal = (): void => {
    if (causes === null) copyGenome(current, trial);
    else move(decoder, currentPresent, causes, current, trial, random);
    const value = evaluate(trial);
    const heat = Math.max(1, energy === Infinity ? 1 : energy) * HEAT * temperature;
    temperature = Math.max(0.02, temperature * (1 - 4 / ANNEALING));
    if (value === Infinity && causes !== null) return;
    if (causes !== null && value > energy && random.unit() >= Math.exp((energy - value) / heat))
      return;
    copyGenome(trial, current);
    if (value === Infinity) return;
    settle(decoder, current);
    energy = value;
    causes = causesOf(decoder, current.branch);
    currentPresent = decoder.present.slice();
  };

  const nextPhase = (): void => {
    if (phase === 'annealing') {
      if (energy < Infinity) insert(current, energy);
      fruitless = improved ? 0 : fruitless + 1;
      improved = false;
      if (fruitless > PATIENCE) {
        population.length = 0;
        fruitless = 0;
        phase = 'rules';
        left = POPULATION;
        return;
      }
      phase = 'breeding';
      left = BREEDING;
      return;
    }
    if (population.length < 2) {
      phase = 'rules';
      left = POPULATION;
      return;
    }
    phase = phase === 'rules' ? 'breeding' : 'annealing';
    left = phase === 'breeding' ? BREEDING : ANNEALING;
    if (phase === 'annealing') beginAnnealing();
  };

  const state = (): SearchState & { readonly foundAt: number } => {
    let status: SolveStatus = 'unknown';
    if (plan !== null) status = optimal() ? 'optimal' : 'feasible';
    return { status, plan, bounds, iterations, done: optimal() || n === 0, foundAt };
  };

  const given: Genome[] = warmStart === null ? [] : warmGenomes(compiled, warmStart);

  return {
    step(count) {
      for (let k = 0; k < count && !optimal(); k += 1) {
        const warm = given.shift();
        if (warm !== undefined) {
          const value = evaluate(warm);
          if (value < Infinity) {
            settle(decoder, warm);
            insert(warm, value);
          }
          continue;
        }
        if (left <= 0) nextPhase();
        left -= 1;
        if (phase === 'rules') byRule();
        else if (phase === 'breeding') breed();
        else anneal();
      }
      return state();
    },
  };
}
