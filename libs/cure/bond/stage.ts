import { cureClock, reachedAt, type CureClock } from '../clock/cure-clock.ts';
import type { TemperatureBand } from '../clock/series.ts';
import { lawOf } from '../material/law.ts';
import type { Base, CureMaterial, Milestone, Side } from '../material/material.ts';
import type { NextCoat, Stage } from './bond.ts';

const polyester = (base: Base | 'paint'): boolean => base === 'polyester' || base === 'vinyl-ester';

/** Whether a film that is open joins with the next material at all: only its own kind does. */
const joins = (base: Base, next: NextCoat['base']): boolean =>
  base === next || (polyester(base) && polyester(next));

/** Either is later than the beginning of any bond window. */
const HARD: readonly Milestone[] = ['sandable', 'cured'];

/**
 * How far a film laid from minute `start` to `finish` has come by minute `at`, on the safe side
 * of the band. While its bond window is open it is `open`, even when it could be sanded:
 * laminating polyester bonds for days after that. For a `next` material that does not join with
 * it the window does not count, only whether it is hard.
 *
 * A film that has hardened has passed the beginning of its window; where its sheet gives no end
 * of one, it counts as hard: abraded it bonds in any case, and a chemical bond is only for inside
 * the product's own window (contradiction X10: always sand, or only after five days).
 *
 * `clock` gives the clocks, where they have been made already. Throws `cure.missing` where the
 * answer hangs on a milestone that the sheet lacks; a film whose full cure is not known never
 * counts as cured.
 */
export function stageOf(
  material: CureMaterial,
  band: TemperatureBand,
  start: number,
  finish: number,
  at: number,
  next: NextCoat['base'] = material.base,
  clock: (milestone: Milestone, side: Side) => CureClock = (milestone, side) =>
    cureClock(material, milestone, side, band),
): Stage {
  const past = (milestone: Milestone): boolean => {
    const reached = reachedAt(clock(milestone, 'open'), finish);
    return reached !== null && at >= reached;
  };
  const known = (milestone: Milestone): boolean => material.milestones[milestone] !== undefined;
  const hardened = (): boolean => HARD.some((milestone) => known(milestone) && past(milestone));
  if (joins(material.base, next)) {
    if (known('bond-closes')) {
      const closes = reachedAt(clock('bond-closes', 'close'), start);
      if (closes === null || at <= closes) {
        const opened = (!known('bond-opens') && hardened()) || past('bond-opens');
        return opened ? 'open' : 'wet';
      }
    } else if (!hardened()) lawOf(material, 'bond-closes');
  }
  if (known('cured') && past('cured')) return 'cured';
  return past('sandable') ? 'hard' : 'between';
}
