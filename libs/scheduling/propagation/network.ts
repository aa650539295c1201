import { Arcs, type Arc } from './arcs.ts';
import { Clauses } from './clauses.ts';
import { Literals } from './literal.ts';
import { Timetable, type Use } from './timetable.ts';
import { ARC, CLAUSE, DECISION, TIMETABLE, Trail } from './trail.ts';

/** A resource with the tasks that use it. */
export interface Supply {
  readonly capacity: number;
  readonly uses: readonly Use[];
}

/** What a network is made of. `root` has two bounds a variable (see literal.ts). */
export interface NetworkInput {
  readonly root: Int32Array;
  readonly arcs: readonly Arc[];
  readonly supplies: readonly Supply[];
}

/** The resources of one variable: which timetable, and which use in it. */
interface Place {
  readonly table: number;
  readonly use: number;
}

/**
 * All propagators over one trail, run to a fixpoint: clauses and arcs at each rise, timetables
 * when nothing else is left. After `propagate` gave false, `conflict` holds true literals that
 * cannot hold together.
 */
export class Network {
  readonly trail: Trail;
  readonly clauses: Clauses;
  readonly arcs: Arcs;
  readonly conflict = new Literals();
  private readonly timetables: readonly Timetable[];
  private readonly places: readonly (readonly Place[])[];
  private readonly waiting: Int32Array;
  private waitingCount = 0;
  /** The next trail entry to propagate. */
  private head = 0;
  private consistentRoot = true;

  constructor(input: NetworkInput) {
    this.trail = new Trail(input.root);
    this.clauses = new Clauses(this.trail);
    this.arcs = new Arcs(this.trail, input.arcs);
    this.timetables = input.supplies.map(
      (s, r) => new Timetable(this.trail, r, s.capacity, s.uses),
    );
    this.waiting = new Int32Array(input.supplies.length);
    const places = Array.from({ length: input.root.length / 2 }, (): Place[] => []);
    input.supplies.forEach((s, table) => {
      s.uses.forEach((u, use) => places[u.x].push({ table, use }));
    });
    this.places = places;
    for (let x = 0; x < places.length; x++) this.notice(x);
    for (let b = 0; b < input.root.length; b++) {
      if (!this.arcs.propagate(b)) this.consistentRoot = false;
    }
  }

  private notice(x: number): void {
    for (const { table, use } of this.places[x]) {
      if (this.timetables[table].notice(use)) this.waiting[this.waitingCount++] = table;
    }
  }

  /** Runs to the fixpoint. False on conflict. At level 0 what was derived becomes root facts. */
  propagate(): boolean {
    const { trail, clauses, arcs } = this;
    if (!this.consistentRoot) return false;
    for (;;) {
      while (this.head < trail.size) {
        const p = this.head++;
        const b = trail.entryBound[p];
        if (trail.latest[b] !== p) continue; // a later entry will do for both
        this.notice(b >> 1);
        if (!arcs.propagate(b) || !clauses.propagate(b)) return this.failRise();
      }
      if (this.waitingCount === 0) break;
      if (!this.runTimetable()) return false;
    }
    if (trail.level === 0) {
      trail.forget();
      this.head = 0;
    }
    return true;
  }

  private runTimetable(): boolean {
    const table = this.timetables[this.waiting[--this.waitingCount]];
    this.conflict.clear();
    if (table.propagate(this.conflict)) return true;
    return this.conflict.size > 0 ? this.fail() : this.failRise();
  }

  /** The conflict of a rise that met its opposite bound: the weakest such rise, and that bound. */
  private failRise(): boolean {
    const { trail, conflict } = this;
    const b = trail.failedBound;
    const opposite = trail.bound[b ^ 1];
    conflict.clear();
    this.explainReason(b, 1 - opposite, trail.failedReason, trail.failedDetail, conflict);
    conflict.add(b ^ 1, opposite);
    return this.fail();
  }

  private fail(): boolean {
    for (const table of this.timetables) table.drop();
    this.waitingCount = 0;
    this.head = this.trail.size;
    return false;
  }

  /** Opens a level and makes (b, v) true, which must be undecided. */
  decide(b: number, v: number): void {
    this.trail.open();
    this.trail.raise(b, v, DECISION, 0);
  }

  /** Takes the newest entry back. Call `settle` after the last. */
  pop(): void {
    this.clauses.rewind(this.trail.pop());
  }

  /** After `pop`s down to the start of a level that becomes the present one. */
  settle(level: number): void {
    this.trail.level = level;
    this.head = this.trail.size;
    for (const table of this.timetables) table.rewind();
  }

  /** Appends to `out` why entry `p`'s bound reached `v`; `p` must be just popped. */
  explain(p: number, v: number, out: Literals): void {
    const { entryBound, entryReason, entryDetail } = this.trail;
    this.explainReason(entryBound[p], v, entryReason[p], entryDetail[p], out);
  }

  private explainReason(b: number, v: number, reason: number, detail: number, out: Literals): void {
    const datum = reason >> 2;
    switch (reason & 3) {
      case ARC:
        this.arcs.explain(datum, b, v, out);
        break;
      case CLAUSE:
        this.clauses.explain(datum, b, out);
        break;
      case TIMETABLE:
        this.timetables[datum].explain(b, v, detail, out);
        break;
      default:
        throw new Error('a decision has no reason');
    }
  }
}
