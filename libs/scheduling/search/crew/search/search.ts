import { random as seeded } from '#kernel/random.ts';
import type { Plan, ProvedBound, SearchState, SolveStatus } from '../../../model/plan.ts';
import type { Problem } from '../../../model/problem.ts';
import { incumbent } from '../../incumbent.ts';
import type { Windows } from '../decode/choose.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { decoder as decoderFor } from '../decode/decode.ts';
import { copyGenome, emptyGenome, type Genome } from '../decode/genome.ts';
import { causesOf, cross, move, mutate, settle, type Causes } from './moves.ts';
import { planOf } from './plan-of.ts';
import { POPULATION, populationOf } from './population.ts';
import {
  polishEnergy,
  polishMove,
  promised,
  publishedGenome,
  settleWhole,
  type Goal,
} from './polish.ts';
import { ruleGenome, tails } from './rules.ts';
import { warmGenomes } from './warm.ts';
import { costsMoney, newWorth, valuesOf, worthOf } from './worth.ts';

/** A running search: `step` does so many decodes more and shows where it stands. */
export interface CrewSearch {
  step(iterations: number): SearchState & { readonly foundAt: number };
}

type Phase = 'rules' | 'breeding' | 'annealing' | 'polishing';

/** Decodes by rule before breeding starts. */
const RULES = POPULATION;
/** Decodes of one stretch of breeding, and of one stretch of annealing. */
const BREEDING = 1500;
const ANNEALING = 900;
/** Decodes for rank 3, and for rank 4, after each annealing; and at first, after the rules. */
const POLISHING = 500;
const FIRST_POLISHING = 60;
/** Of the energy: what annealing accepts at first with probability 1/e. Measured best of 0.0005 to 0.008. */
const HEAT = 0.008;
/** Fruitless rounds after which the population is made anew. */
const PATIENCE = 3;

/** What is proved before the search begins. */
export interface SearchRoot {
  readonly compiled: Compiled;
  readonly windows: Windows;
  /** Lower bounds of the four ranks, at which the search is done. */
  readonly bounds: readonly ProvedBound[];
}

/**
 * Search over genomes by decodes: rules first, then breeding and annealing for ranks 1 and 2 in
 * turn, each time followed by a share for rank 3 and one for rank 4, from the best plan.
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
  const paid = costsMoney(problem);
  const worth = newWorth();
  const best = incumbent(problem.tolerances);
  const genomes = new WeakMap<Plan, Genome>();
  const population = populationOf(compiled, random);
  const trial = emptyGenome(compiled);
  const current = emptyGenome(compiled);
  const blamed = new Float64Array(n);
  const weights = problem.refits.reduce((sum, refit) => sum + refit.weight, 0);
  const spreadWeight = (0.02 * Math.max(1, weights)) / Math.max(1, n);
  const target = bounds[0].bound + problem.tolerances[0];
  const goals: Goal[] = [];
  if (paid) goals.push(2);
  if (problem.published !== null && problem.published.tasks.length > 0) goals.push(3);

  let iterations = 0;
  let foundAt = 0;
  let rule = 0;
  let phase: Phase = 'rules';
  let goal: Goal = 1;
  let left = RULES;
  let failures = 0;
  let fruitless = 0;
  let improved = false;
  let energy = Infinity;
  let temperature = 0;
  let length = ANNEALING;
  let causes: Causes | null = null;
  let currentPresent: Uint8Array = new Uint8Array(n);
  let optimal = false;
  let polishing = FIRST_POLISHING;

  const isProved = ({ bound, caps }: ProvedBound, rank: number): boolean =>
    best.least[rank] <= bound && caps.every((cap, r) => cap >= best.cap(r));

  /** Whether no cap that tightens can ever bring such a plan back. */
  const isHopeless = (): boolean => {
    const [late, finishes] = worth.values;
    return late > best.cap(0) || (late === best.cap(0) && finishes > best.cap(1));
  };

  const keep = (genome: Genome): void => {
    if (best.plan !== null && isHopeless()) return;
    const before = best.least[1];
    const late = best.least[0];
    const values = valuesOf(worth);
    const changed = best.offer(values, () => {
      const plan = planOf(decoder, genome.branch, ends, worth);
      const own = emptyGenome(compiled);
      copyGenome(genome, own);
      settleWhole(decoder, own);
      genomes.set(plan, own);
      return plan;
    });
    if (!changed) return;
    foundAt = iterations;
    if (best.least[0] < late || best.least[1] < before) improved = true;
    optimal = bounds.every(isProved);
  };

  /** One decode; the energy guides, the incumbent is kept by the exact ranks. */
  const evaluate = (genome: Genome): number => {
    iterations += 1;
    if (!decoder.decode(genome)) {
      if (decoder.blame >= 0) blamed[decoder.blame] += 1;
      return Infinity;
    }
    worthOf(decoder, ends, paid, worth);
    keep(genome);
    return goal === 1
      ? promised(worth, target) + spreadWeight * worth.spread
      : polishEnergy(goal, worth, best);
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

  const byRule = (): void => {
    ruleGenome(compiled, windows, tail, rule, random, trial);
    trial.ahead = failures > 0 && rule % 2 === 1;
    trial.order = failures > 0 ? (rule >> 1) % compiled.orders.length : 0;
    if (failures > 0) hurry(trial);
    rule += 1;
    const value = evaluate(trial);
    if (value === Infinity) {
      failures += 1;
      return;
    }
    settle(decoder, trial);
    population.insert(trial, value);
  };

  const breed = (): void => {
    cross(decoder, population.parent(), population.parent(), trial, random);
    mutate(decoder, trial, random);
    const value = evaluate(trial);
    if (value === Infinity) return;
    settle(decoder, trial);
    population.insert(trial, value);
  };

  /** The genome of the best plan so far. */
  const bestGenome = (): Genome | undefined =>
    best.plan === null ? undefined : genomes.get(best.plan);

  const beginAnnealing = (): void => {
    const own = bestGenome();
    copyGenome(
      own !== undefined && (goal > 1 || fruitless % 2 === 0) ? own : population.parent(),
      current,
    );
    energy = Infinity;
    causes = null;
    temperature = 1;
    length = left;
  };

  const neighbour = (): void => {
    if (causes === null) copyGenome(current, trial);
    else if (goal > 1 && random.below(4) > 0) polishMove(decoder, goal, current, trial, random);
    else move(decoder, currentPresent, causes, current, trial, random);
  };

  const anneal = (): void => {
    neighbour();
    const value = evaluate(trial);
    const heat = Math.max(1, energy === Infinity ? 1 : energy) * HEAT * temperature;
    temperature = Math.max(0.02, temperature * (1 - 4 / length));
    if (value === Infinity && causes !== null) return;
    if (causes !== null && value > energy && random.unit() >= Math.exp((energy - value) / heat))
      return;
    copyGenome(trial, current);
    if (value === Infinity) return;
    if (goal > 1) settleWhole(decoder, current);
    else settle(decoder, current);
    energy = value;
    causes = causesOf(decoder, current.branch);
    currentPresent = decoder.present.slice();
  };

  const begin = (next: Phase, count: number, rank: Goal = 1): void => {
    phase = next;
    left = count;
    goal = rank;
    if (next === 'annealing' || next === 'polishing') beginAnnealing();
  };

  /** After the rules or an annealing: the later ranks in turn, then breeding. */
  const polishOrBreed = (count: number): void => {
    const next = best.plan === null ? undefined : goals.find((rank) => rank > goal);
    if (next === undefined) begin('breeding', BREEDING);
    else begin('polishing', count, next);
  };

  const nextPhase = (): void => {
    if (phase === 'rules' && population.count < 2) begin('rules', RULES);
    else if (phase === 'breeding') begin('annealing', ANNEALING);
    else if (phase === 'annealing') {
      if (energy < Infinity) population.insert(current, energy);
      fruitless = improved ? 0 : fruitless + 1;
      improved = false;
      polishing = POLISHING;
      polishOrBreed(polishing);
    } else if (phase === 'polishing' || goals.length === 0 || rule <= RULES)
      polishOrBreed(polishing);
    else begin('breeding', BREEDING);
    if (phase === 'breeding' && fruitless > PATIENCE) {
      population.clear();
      fruitless = 0;
      begin('rules', RULES);
    }
  };

  const state = (): SearchState & { readonly foundAt: number } => {
    const { plan } = best;
    let status: SolveStatus = 'unknown';
    if (plan !== null) status = optimal ? 'optimal' : 'feasible';
    return {
      status,
      plan,
      bounds,
      iterations,
      done: optimal || (n === 0 && plan !== null),
      foundAt,
    };
  };

  const given: Genome[] = warmStart === null ? [] : warmGenomes(compiled, warmStart);
  if (problem.published !== null && goals.includes(3))
    given.push(publishedGenome(compiled, problem.published));

  return {
    step(count) {
      for (let k = 0; k < count && !optimal; k += 1) {
        const warm = given.shift();
        if (warm !== undefined) {
          const value = evaluate(warm);
          if (value < Infinity) {
            settle(decoder, warm);
            population.insert(warm, value);
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
