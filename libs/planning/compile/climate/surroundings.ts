import { behind, SETTLED } from '#cure/climate/heat-store.ts';
import type { SpaceClimate } from '#cure/climate/space-climate.ts';
import { bandOf, type TemperatureBand } from '#cure/clock/series.ts';
import { DomainError } from '#kernel/error.ts';
import type { Milestone } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';
import { climateOver, range, type Extremes } from './climate.ts';
import { once } from '../once.ts';
import type { Frame } from '../frame/time.ts';

/** What films and cups are as warm as, in the yard's spaces and stores. */
export interface Surroundings {
  climate(space: string): SpaceClimate;
  /** Surfaces of some places between which a part may move; expected as in the first. */
  surface(places: readonly string[]): TemperatureBand;
  /** The resin of a material that is mixed for work in a space. */
  resin(material: string, space: string): TemperatureBand;
  /** What a milestone goes by: pot life by the resin where it is laid first, others by the surface. */
  band(material: string, milestone: Milestone, places: readonly string[]): TemperatureBand;
  /** Names that band, and all others like it. */
  bandName(material: string, milestone: Milestone, places: readonly string[]): string;
  /** How cold and how warm the air in the first place and the surfaces of all may ever be. */
  extremes(places: readonly string[]): Extremes;
}

const RESIN = 'resin of ';

/** `first` and `until`: the minutes between which climates matter. */
export function surroundingsOf(
  yard: Yard,
  frame: Frame,
  first: number,
  until: number,
): Surroundings {
  const over = climateOver(yard, frame);
  const spaces = new Map(yard.spaces.map((space) => [space.id, space]));
  const climates = new Map(yard.spaces.map((space) => [space.id, over(space, first, until)]));
  const stores = new Map(yard.materials.map((material) => [material.id, material]));
  const bands = new Map<string, TemperatureBand>();
  const ranges = new Map<TemperatureBand, Extremes>();
  const climate = (space: string): SpaceClimate => {
    const found = climates.get(space);
    if (found === undefined)
      throw new DomainError('yard.reference', `there is no space "${space}"`);
    return found;
  };
  // Of spaces with one climate the first stands for all: ten hulls need no ten tables.
  const firstOf = new Map<SpaceClimate, string>();
  for (const [space, own] of climates) if (!firstOf.has(own)) firstOf.set(own, space);
  const distinct = (places: readonly string[]): string[] => [
    ...new Set(places.map((place) => firstOf.get(climate(place)) ?? place)),
  ];
  const surface: Surroundings['surface'] = (places) => {
    const list = distinct(places);
    if (list.length === 1) return climate(list[0]).surface;
    return once(bands, list.join('+'), () => bandOf(list.map((one) => climate(one).surface)));
  };
  /** The space whose air the resin follows, as a name of it. */
  const storeOf = (material: string, space: string): string =>
    distinct([stores.get(material)?.keptIn ?? space])[0];
  const resin: Surroundings['resin'] = (material, space) => {
    const hours = stores.get(material)?.keptLagHours ?? 0;
    const store = storeOf(material, space);
    return once(bands, `${RESIN}${store}~${String(hours)}`, () => {
      const space = spaces.get(store);
      if (hours === 0 || space === undefined) return climate(store).air;
      // What it was as warm as before is what it still is in part.
      return behind(over(space, first - SETTLED * hours * 60, until).air, hours);
    });
  };
  const rangeOf = (band: TemperatureBand): Extremes => {
    const known = ranges.get(band) ?? range(band);
    ranges.set(band, known);
    return known;
  };
  return {
    climate,
    surface,
    resin,
    band: (material, milestone, places) =>
      milestone === 'pot-life' ? resin(material, places[0]) : surface(places),
    bandName: (material, milestone, places) =>
      milestone === 'pot-life'
        ? `${RESIN}${storeOf(material, places[0])}`
        : distinct(places).sort().join('+'),
    extremes: (places) => {
      const { air, surface: own } = climate(places[0]);
      const list = [air, own, surface(places)].map(rangeOf);
      return {
        low: Math.min(...list.map(({ low }) => low)),
        high: Math.max(...list.map(({ high }) => high)),
      };
    },
  };
}
