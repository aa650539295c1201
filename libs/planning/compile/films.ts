import { cureClock, reachedAt, type CureClock } from '#cure/clock/cure-clock.ts';
import { lagTable } from '#cure/clock/lag-table.ts';
import { coldest, warmest, type TemperatureSeries } from '#cure/clock/series.ts';
import type { CureMaterial, Milestone, Side } from '#cure/material/material.ts';
import { rateOf } from '#cure/material/rate.ts';
import type { LagTable } from '#scheduling/model/problem.ts';
import { DomainError } from '#kernel/error.ts';
import { cureMaterial } from '../yard/cure-material.ts';
import type { Yard } from '../yard/yard.ts';

/** Minutes between the points of a lag table; the engine rounds to the safe side between them. */
const GRID = 5;

/** Cure clocks and lag tables, one for each (material, milestone, side, places). */
export interface Films {
  readonly tables: readonly LagTable[];
  material(id: string): CureMaterial;
  series(space: string): TemperatureSeries;
  /** The coldest of some spaces at each moment. */
  coldest(places: readonly string[]): TemperatureSeries;
  /** Whether a film of the material never reaches `later` before `earlier`, as openings reckon. */
  notBefore(material: string, later: Milestone, earlier: Milestone): boolean;
  /** When films laid in the first place, and perhaps moved to the others, reach the milestone. */
  clock(material: string, milestone: Milestone, side: Side, places: readonly string[]): CureClock;
  /** Index of the clock's table. */
  table(material: string, milestone: Milestone, side: Side, places: readonly string[]): number;
}

/** Two places or more: openings reckon with the colder and closings with the warmer at each moment. */
function seriesOf(
  series: ReadonlyMap<string, TemperatureSeries>,
  side: Side,
  places: readonly string[],
): TemperatureSeries {
  const list = places.map((place) => {
    const found = series.get(place);
    if (found === undefined)
      throw new DomainError('yard.reference', `there is no space "${place}"`);
    return found;
  });
  if (list.length === 1) return list[0];
  return side === 'open' ? coldest(list) : warmest(list);
}

/** At every half degree at which the material cures: a film that nears one slower gets there later. */
function neverBefore(material: CureMaterial, later: Milestone, earlier: Milestone): boolean {
  if (later === earlier) return true;
  const { milestones, minimumC, maximumC } = material;
  const [slow, fast] = [milestones[later], milestones[earlier]];
  if (slow === undefined || fast === undefined) return false;
  const [slowRate, fastRate] = [slow, fast].map((table) => rateOf(table, 'open', minimumC));
  for (let c = Math.floor(minimumC); c <= Math.ceil(maximumC); c += 0.5)
    if (slowRate(c) > fastRate(c)) return false;
  return true;
}

export function filmsOf(
  yard: Yard,
  series: ReadonlyMap<string, TemperatureSeries>,
  horizon: number,
): Films {
  const materials = new Map(
    yard.materials.map((material) => [material.id, cureMaterial(material)]),
  );
  const clocks = new Map<string, CureClock>();
  const tableIndex = new Map<string, number>();
  const tables: LagTable[] = [];
  const material = (id: string): CureMaterial => {
    const found = materials.get(id);
    if (found === undefined)
      throw new DomainError('yard.reference', `there is no material "${id}"`);
    return found;
  };
  // Of spaces with one climate the first stands for all: ten hulls need no ten tables.
  const firstOf = new Map<TemperatureSeries, string>();
  for (const [space, own] of series) if (!firstOf.has(own)) firstOf.set(own, space);
  const distinct = (places: readonly string[]): string[] => {
    const like = places.map((place) => {
      const own = series.get(place);
      return (own === undefined ? undefined : firstOf.get(own)) ?? place;
    });
    return [...new Set(like)].sort();
  };
  const key = (id: string, milestone: Milestone, side: Side, places: readonly string[]): string =>
    `${id}/${milestone}/${side}/${distinct(places).join('+')}`;
  const clock: Films['clock'] = (id, milestone, side, places) => {
    const name = key(id, milestone, side, places);
    const known = clocks.get(name);
    if (known !== undefined) return known;
    const made = cureClock(material(id), milestone, side, seriesOf(series, side, distinct(places)));
    clocks.set(name, made);
    return made;
  };
  return {
    tables,
    material,
    series: (space) => seriesOf(series, 'open', [space]),
    coldest: (places) => seriesOf(series, 'open', places),
    notBefore: (id, later, earlier) => neverBefore(material(id), later, earlier),
    clock,
    table: (id, milestone, side, places) => {
      const name = key(id, milestone, side, places);
      const known = tableIndex.get(name);
      if (known !== undefined) return known;
      const values = lagTable(clock(id, milestone, side, places), GRID, horizon);
      tables.push({ id: name, grid: GRID, values, source: `material:${id}` });
      tableIndex.set(name, tables.length - 1);
      return tables.length - 1;
    },
  };
}

/** The minute of a milestone of a film laid at `minute`; beyond the horizon there is only never. */
export function reachedOrNever(clock: CureClock, minute: number, horizon: number): number {
  return Math.min(horizon + 1, reachedAt(clock, minute) ?? horizon + 1) + 0; // no -0, which JSON does not keep
}
