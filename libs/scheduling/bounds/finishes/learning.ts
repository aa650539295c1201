import { Literals, upperOf } from '../../propagation/literal.ts';
import { ActivityBranching } from '../../search/learning/branching.ts';
import { LearningSearch } from '../../search/learning/search.ts';
import { stockOf } from '../../search/whole/model/ground.ts';
import { SLICE, type Steps } from '../../search/whole/model/steps.ts';
import { wholeInSteps, type WholeModel } from '../../search/whole/model/whole.ts';
import { diveOf } from '../../search/whole/search/dive.ts';
import type { Analysis } from '../critical-path.ts';
import { isCertain } from '../domains.ts';
import { partOf, type Part } from './part.ts';
import type { Refusal } from './vectors.ts';

/** Conflicts of an attempt at most. */
const CONFLICTS = 8;

/** What some conflicts came to: caps refused; finishes that are possible in the part; or nothing yet. */
export type Attempt =
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  | { readonly kind: 'possible'; readonly finishes: readonly number[] }
  | { readonly kind: 'open' };

const OPEN: Attempt = { kind: 'open' };

/**
 * Some refits with the learning core (`search/whole`): caps on finishes are assumptions, and where
 * they are refuted the core of assumptions says which refits and which caps, weakened, it took. What
 * is learned is kept for later caps.
 */
export class LearnedPart {
  readonly refits: readonly number[];
  readonly until: number;
  private readonly analysis: Analysis;
  private readonly part: Part;
  private readonly literals = new Literals();
  private readonly owners: number[] = [];
  private readonly setting: Steps<void>;
  private asked = '';
  private made = false;
  private model: WholeModel | null = null;
  private search: LearningSearch | null = null;

  /** Knows of plans only in which the refits finish by `until`: caps may not be later. */
  constructor(analysis: Analysis, refits: readonly number[], until: number) {
    this.analysis = analysis;
    this.refits = refits;
    this.until = until;
    this.part = partOf(analysis.root.problem, refits, until);
    this.setting = this.setUp();
  }

  get size(): number {
    return this.part.activities.length;
  }

  /** Conflicts met so far. */
  get conflicts(): number {
    return this.search?.conflicts ?? 0;
  }

  /** Rises of bounds so far. */
  get propagations(): number {
    return this.search?.propagations ?? 0;
  }

  private *setUp(): Steps<void> {
    const stock = stockOf(this.part.problem);
    yield;
    // Without ranks: caps on finishes are all that is asked.
    const model = yield* wholeInSteps(this.part.problem, null, stock, 0);
    // Crews left out make some work shorter than it can be: nothing follows from that network.
    if (!model.isManned) return;
    yield;
    const dive = diveOf(model, { values: null });
    const quiet = model.ranks.filter((x) => x !== null);
    const branching = new ActivityBranching(model.network, { dive, quiet, phase: 'last' });
    this.model = model;
    this.search = new LearningSearch(model.network, branching, { objective: null });
    while (!this.search.prepare(SLICE)) yield;
  }

  /** Assumes that the part's refits finish by the caps. */
  private assume(search: LearningSearch, model: WholeModel, caps: readonly number[]): void {
    const key = this.refits.map((r) => caps[r]).join();
    if (key === this.asked) return;
    this.asked = key;
    const { root, assumed } = this.analysis;
    this.literals.clear();
    this.owners.length = 0;
    const at = new Map(this.part.activities.map((a, i) => [a, i]));
    for (const a of root.compiled.order.topological.toReversed()) {
      const { refit, fixed } = root.problem.activities[a];
      const i = at.get(a);
      if (i === undefined || refit === null || fixed?.kind === 'frozen') continue;
      if (!this.refits.includes(refit)) continue;
      if (!isCertain(root, assumed, a)) continue;
      this.literals.add(upperOf(model.works[i].finish), -caps[refit]);
      this.owners.push(refit);
    }
    search.assume(this.literals);
  }

  /** Whether it is set up; until then no caps can be asked about. */
  get isReady(): boolean {
    return this.made;
  }

  /** A piece of the setting up. */
  prepare(): void {
    this.made ||= this.setting.next().done === true;
  }

  /** Goes on with these caps for a few conflicts, with no more work than a slice. */
  attempt(caps: readonly number[]): Attempt {
    const { search, model } = this;
    if (search === null || model === null) return OPEN;
    if (this.refits.some((r) => caps[r] > this.until)) return OPEN;
    this.assume(search, model, caps);
    const { network } = search;
    const until = network.work + SLICE;
    for (let k = 0; k < CONFLICTS && network.work < until; k += 1)
      switch (search.advance(until - network.work)) {
        case 'refuted':
          return { kind: 'refused', refusal: this.refusalOf(search, caps) };
        case 'exhausted':
          // No plan whatever that is finished by then.
          return { kind: 'refused', refusal: this.refusalBy(this.until) };
        case 'solution':
          return { kind: 'possible', finishes: this.finishesOf(search, model) };
        case 'conflict':
        case 'open':
      }
    return OPEN;
  }

  private refusalOf(search: LearningSearch, asked: readonly number[]): Refusal {
    const caps = asked.map(() => Infinity);
    search.coreOf.forEach((index, k) => {
      const r = this.owners[index];
      caps[r] = Math.min(caps[r], -search.core.values[k]);
    });
    if (this.refits.every((r) => caps[r] === Infinity)) return this.refusalBy(this.until);
    // No cap is asked for beyond what the part knows of: those left out have this one.
    for (const r of this.refits) caps[r] = Math.min(caps[r], this.until);
    return { refits: this.refits, caps };
  }

  private refusalBy(cap: number): Refusal {
    const { refits } = this.analysis.root.problem;
    return {
      refits: this.refits,
      caps: refits.map((_, r) => (this.refits.includes(r) ? cap : Infinity)),
    };
  }

  private finishesOf(search: LearningSearch, model: WholeModel): number[] {
    const { problem } = this.analysis.root;
    const finishes = problem.refits.map(() => 0);
    this.part.activities.forEach((a, i) => {
      const { refit } = problem.activities[a];
      const finish = search.values[model.works[i].finish];
      if (refit !== null && finish <= this.part.problem.horizon)
        finishes[refit] = Math.max(finishes[refit], finish);
    });
    return finishes;
  }
}
