import type { Analysis } from '../critical-path.ts';
import { LearnedPart, type Attempt } from './learning.ts';
import type { Refusal } from './vectors.ts';

/** Parts with more activities are not looked at: to set one up takes longer than can be waited for. */
const LARGEST = 72;
/** Parts kept, with what they have learned. */
const PARTS = 8;
/** How far beyond the finishes asked about a part reaches: a week. */
export const AHEAD = 10_080;
const FIRST_STEP = 60;

/** What has been done so far, for whoever prices an iteration. */
export interface BoundsCounts {
  /** Conflicts of parts, and rises of bounds in them. */
  conflicts: number;
  propagations: number;
  /** Pieces of the setting up of parts. */
  pieces: number;
  /** Caps looked at by energy. */
  refutations: number;
  /** Days looked at to buy work at the prices of hours. */
  looks: number;
}

/** What is known of one problem while its bounds are lifted. */
export interface Lifting {
  readonly analysis: Analysis;
  readonly least: number[];
  readonly refusals: Refusal[];
  readonly parts: Map<string, LearnedPart>;
  /** Refits of which a part has too many activities, however far it reaches. */
  readonly tooLarge: Set<string>;
  readonly counts: BoundsCounts;
}

/** Null: it has too many activities. */
function partFor(lifting: Lifting, refits: readonly number[], until: number): LearnedPart | null {
  const { parts, tooLarge, analysis } = lifting;
  const key = refits.join();
  const known = parts.get(key);
  const part =
    known !== undefined && known.until >= until
      ? known
      : new LearnedPart(analysis, refits, until + AHEAD);
  if (part.size > LARGEST) {
    tooLarge.add(key);
    return null;
  }
  parts.delete(key);
  parts.set(key, part);
  for (const oldest of parts.keys()) {
    if (parts.size <= PARTS) break;
    parts.delete(oldest);
  }
  return part;
}

/** Keeps a refusal; one of a single refit is its own bound. */
function keep({ least, refusals }: Lifting, refusal: Refusal): void {
  const [first, ...others] = refusal.refits;
  if (others.length > 0) refusals.push(refusal);
  else least[first] = Math.max(least[first], refusal.caps[first] + 1);
}

/** Goes on with a part until caps are decided, or that many conflicts or slices of work are spent. */
function* decide(
  counts: BoundsCounts,
  part: LearnedPart,
  caps: readonly number[],
  effort: number,
): Generator<undefined, Attempt> {
  while (!part.isReady) {
    yield;
    counts.pieces += 1;
    part.prepare();
  }
  const until = part.conflicts + effort;
  for (let slices = 0; slices < effort && part.conflicts < until; slices += 1) {
    yield;
    const { conflicts, propagations } = part;
    const attempt = part.attempt(caps);
    counts.conflicts += part.conflicts - conflicts;
    counts.propagations += part.propagations - propagations;
    if (attempt.kind !== 'open') return attempt;
  }
  return { kind: 'open' };
}

/**
 * Tries to refuse caps, and where that succeeds later ones, of one refit after the other. Steps double
 * while they succeed; a plan of the part that turns up says what need not be tried. True if any
 * caps were refused.
 */
export function* refuse(
  lifting: Lifting,
  refits: readonly number[],
  asked: readonly number[],
  effort: number,
): Generator<undefined, boolean> {
  const { horizon } = lifting.analysis.root.problem;
  if (lifting.tooLarge.has(refits.join())) return false;
  const base = asked.slice();
  let found = false;
  for (const r of refits) {
    let possible = horizon + 1;
    for (let step = found ? FIRST_STEP : 0; base[r] + step < possible || !found;) {
      const caps = base.slice();
      caps[r] = Math.min(base[r] + step, possible - 1);
      const latest = refits.reduce((most, one) => Math.max(most, caps[one]), 0);
      const part = partFor(lifting, refits, latest);
      if (part === null) {
        yield;
        return found;
      }
      const attempt = yield* decide(lifting.counts, part, caps, effort);
      if (attempt.kind === 'refused') {
        const { refusal } = attempt;
        keep(lifting, refusal);
        for (const one of refits) base[one] = Math.max(caps[one], refusal.caps[one]);
        found = true;
        step = Math.max(FIRST_STEP, 2 * step);
      } else if (!found) return false;
      else if (attempt.kind === 'open') {
        if (step <= FIRST_STEP) break;
        step >>= 2;
      } else {
        possible = Math.min(possible, attempt.finishes[r]);
        step = possible - 1 - base[r];
        if (step <= 0) break;
      }
    }
  }
  return found;
}
