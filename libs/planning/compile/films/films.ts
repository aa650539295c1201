import type { MassFit } from '#cure/batch/mass-fit.ts';
import type { Calibration } from '#cure/calibration/observed.ts';
import { cureClock, reachedAt, type CureClock } from '#cure/clock/cure-clock.ts';
import { lagLines } from '#cure/clock/lag-lines.ts';
import { roomFor, type Room } from '#cure/clock/sweep.ts';
import type { CureMaterial, Milestone, Side } from '#cure/material/material.ts';
import type { LineTable } from '#scheduling/model/problem.ts';
import { DomainError } from '#kernel/error.ts';
import type { Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { firstMinute } from '../climate/climate.ts';
import { neverBefore } from './never-before.ts';
import { observedMaterials } from '../observed/observed.ts';
import { once } from '../once.ts';
import { forWork, refusedBy, safeOf, watched, type Refused } from './refusals.ts';
import { surroundingsOf, type Surroundings } from '../climate/surroundings.ts';
import type { Frame } from '../frame/time.ts';

/**
 * A film laid in the first of the places and perhaps moved to the others; `times` stretches the
 * sheet's times (what a batch's mass does to its pot life).
 */
type ClockOf<T> = (
  material: string,
  milestone: Milestone,
  side: Side,
  places: readonly string[],
  times?: number,
) => T;

/** Climates, materials, cure clocks and lag tables; one for each (material, milestone, side, places). */
export interface Films extends Surroundings {
  readonly tables: readonly LineTable[];
  /** With the yard's own numbers, and its own factors from what it has observed. */
  material(id: string): CureMaterial;
  calibrations(material: string): readonly Calibration[];
  /** The mass law of the yard's own cups, where it is that. */
  massFit(material: string): MassFit | null;
  /** Whether a film of the material never reaches `later` before `earlier`, as openings reckon. */
  notBefore(material: string, later: Milestone, earlier: Milestone): boolean;
  /** When films reach the milestone. Throws cure.missing. */
  readonly clock: ClockOf<CureClock>;
  /** Index of the clock's table. */
  readonly table: ClockOf<number>;
  /** Starts that the material refuses to work of so many minutes in the first place. */
  refused(material: string, places: readonly string[], minutes: number): readonly Refused[];
}

function stretched(material: CureMaterial, milestone: Milestone, times: number): CureMaterial {
  const law = material.milestones[milestone];
  if (times === 1 || law === undefined) return material;
  const milestones = {
    ...material.milestones,
    [milestone]: { ...law, factor: law.factor * times },
  };
  return { ...material, milestones };
}

/** `since`: a minute before the plan's beginning from which climates matter besides. */
export function filmsOf(yard: Yard, workload: Workload, frame: Frame, since = 0): Films {
  const { materials, calibrations, massFits } = observedMaterials(yard, frame);
  // What is laid last is met by what comes after the plan's end.
  const beyond = Math.max(0, ...[...materials.values()].map(watched));
  const first = firstMinute(workload, frame, since);
  const surroundings = surroundingsOf(yard, frame, first, frame.horizon + beyond);
  const clocks = new Map<string, CureClock>();
  const refusals = new Map<string, readonly Refused[]>();
  const tableIndex = new Map<string, number>();
  const tables: LineTable[] = [];
  let room: Room | null = null;
  const material = (id: string): CureMaterial => {
    const found = materials.get(id);
    if (found === undefined)
      throw new DomainError('yard.reference', `there is no material "${id}"`);
    return found;
  };
  const nameOf: ClockOf<string> = (id, milestone, side, places, times = 1) => {
    const where = surroundings.bandName(id, milestone, places);
    return `${id}/${milestone}/${side}/${where}${times === 1 ? '' : ` *${times.toPrecision(6)}`}`;
  };
  const clock: Films['clock'] = (id, milestone, side, places, times = 1) =>
    once(clocks, nameOf(id, milestone, side, places, times), () =>
      cureClock(
        stretched(material(id), milestone, times),
        milestone,
        side,
        surroundings.band(id, milestone, places),
      ),
    );
  return {
    ...surroundings,
    tables,
    material,
    calibrations: (id) => calibrations.get(id) ?? [],
    massFit: (id) => massFits.get(id) ?? null,
    notBefore: (id, later, earlier) => neverBefore(material(id), later, earlier),
    clock,
    table: (id, milestone, side, places, times = 1) => {
      const name = nameOf(id, milestone, side, places, times);
      return once(tableIndex, name, () => {
        room ??= roomFor(frame.horizon);
        const lines = lagLines(clock(id, milestone, side, places, times), frame.horizon, room);
        return tables.push({ id: name, ...lines, source: `material:${id}` }) - 1;
      });
    },
    refused: (id, places, minutes) => {
      const safe = safeOf(material(id));
      const [at, everywhere] = [[places[0]], places].map((list) =>
        surroundings.bandName(id, safe, list),
      );
      const aMinute = once(refusals, `${id}/${at}>${everywhere}`, () => {
        const laying = {
          climate: surroundings.climate(places[0]),
          surface: surroundings.surface(places),
          safeClock: () => clock(id, safe, 'open', places),
          extremes: surroundings.extremes(places),
        };
        return refusedBy(material(id), laying, frame.horizon);
      });
      return forWork(aMinute, minutes, frame.horizon);
    },
  };
}

/** The minute of a milestone of a film laid at `minute`; beyond the horizon there is only never. */
export function reachedOrNever(clock: CureClock, minute: number, horizon: number): number {
  return Math.min(horizon + 1, reachedAt(clock, minute) ?? horizon + 1) + 0; // no -0, which JSON does not keep
}
