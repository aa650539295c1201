import { mirrored, type Clock } from './clock.ts';
import { lowerOf, upperOf, type Literals } from './literal.ts';
import type { MakePropagator } from './network.ts';
import type { Propagator, Watch } from './propagator.ts';
import type { Trail } from './trail.ts';
import { UnarySide } from './unary-side.ts';
import type { SideUse } from './unary-tasks.ts';

/**
 * A task that takes somebody's whole attention from its start until `after` later than its
 * finish, two variables, if the literal (b, v) is true (null: in any case). `work` of the clock
 * at least passes meanwhile.
 */
export interface UnaryUse {
  readonly start: number;
  readonly finish: number;
  readonly after: number;
  readonly work: number;
  readonly when: { readonly b: number; readonly v: number } | null;
}

export interface UnaryInput {
  readonly uses: readonly UnaryUse[];
  readonly clock: Clock;
}

/** One thing at a time, for a network. */
export const unary =
  (input: UnaryInput): MakePropagator =>
  (trail, reason) =>
    new Unary(trail, reason, input);

/**
 * Somebody (or something) that serves one task at a time, some of them only perhaps.
 *
 * Overload, detectable precedences and edge-finding, with tasks that may be absent, after P. Vilim,
 * R. Bartak, O. Cepek, "Extension of O(n log n) filtering algorithms for the unary resource
 * constraint to optional activities", Constraints 10 (2005) 403-425; explanations after P. Vilim,
 * "Computing explanations for the unary resource constraint", CPAIOR 2005. In place of their trees
 * the plain O(n k) passes of P. Baptiste, C. Le Pape, W. Nuijten, "Constraint-Based Scheduling"
 * (Kluwer 2001), n tasks of which k are certain: k is small. All on the clock, so that nights and
 * absences count for nothing; what follows is found again when it has to be explained.
 */
class Unary implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 3;
  private readonly sides: readonly UnarySide[];
  private stale = false;

  constructor(trail: Trail, reason: number, { uses, clock }: UnaryInput) {
    const forwards = uses.map(({ start, finish, after, work, when }): SideUse => ({
      head: lowerOf(start),
      headPlus: 0,
      tail: upperOf(finish),
      tailPlus: -after,
      work,
      when,
    }));
    const backwards = uses.map(({ start, finish, after, work, when }): SideUse => ({
      head: upperOf(finish),
      headPlus: -after,
      tail: lowerOf(start),
      tailPlus: 0,
      work,
      when,
    }));
    this.sides = [
      new UnarySide(trail, reason, 0, forwards, clock),
      new UnarySide(trail, reason, 1, backwards, mirrored(clock)),
    ];
    const bounds = uses.flatMap(({ start, finish, when }) => [
      lowerOf(start),
      upperOf(start),
      lowerOf(finish),
      upperOf(finish),
      ...(when === null ? [] : [when.b]),
    ]);
    this.watches = [...new Set(bounds)].map((bound) => ({ bound, datum: 0 }));
  }

  notice(): boolean {
    if (this.stale) return false;
    this.stale = true;
    return true;
  }

  propagate(conflict: Literals): boolean {
    this.stale = false;
    return this.sides[0].propagate(conflict) && this.sides[1].propagate(conflict);
  }

  explain(_: number, v: number, detail: number, out: Literals): void {
    this.sides[detail & 1].explain(v, detail >> 1, out);
  }

  rewind(): void {
    // Every run begins with a look at all bounds.
  }

  drop(): void {
    this.stale = false;
  }
}
