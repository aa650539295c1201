import type { Amounts, Cup } from '#cure/batch/amounts.ts';
import { cupsFor } from '#cure/batch/cups.ts';
import { potLifeOf } from '#cure/batch/pot-life.ts';
import { weigh, type Weighed } from '#cure/batch/weigh.ts';
import { celsiusAt } from '#cure/clock/series.ts';
import { lawOf } from '#cure/material/law.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import { amountsOfTask } from '../../compile/work/amounts.ts';
import type { Films } from '../../compile/films/films.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { extremes } from '../reading/extremes.ts';
import type { Moments } from '../reading/moments.ts';
import type { MixSheet, SheetCup } from '../sheet.ts';

/** Where mixes are looked up: of a plan, or of the yard as it is now. */
export interface MixSite {
  readonly yard: Yard;
  readonly films: Films;
  readonly at: Moments;
}

/** Down to whole minutes; what rounding errors take from one is given back. */
const whole = (minutes: number): number => Math.floor(minutes + 1e-6);

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** As cups are weighed: a hundredth of what is less than one. */
const summed = (value: number): number =>
  value < 1 ? Math.round(value * 100) / 100 : tenth(value);

interface Mixing {
  readonly task: Task;
  readonly material: CureMaterial;
  readonly start: number;
  readonly finish: number;
  /** What the cups are reckoned with: as warm as the resin may be during the work. */
  readonly celsius: number;
  readonly share: number;
}

/** All of it in one cup, to be spread inside its pot life. */
function oneCup({ material, celsius }: Mixing, { mixGrams, filmMm }: Amounts): Cup[] {
  const grams = Math.max(1, Math.round(mixGrams));
  const life = potLifeOf(material, celsius, grams, filmMm);
  return life === null ? [] : [{ grams, mixAt: 0, spreadBy: life, potLifeEnds: life }];
}

function cupsOf(mixing: Mixing, amounts: Amounts): Cup[] {
  const { task, material, start, finish, celsius, share } = mixing;
  if (task.oneBatch) return oneCup(mixing, amounts);
  const { mixGrams, filmMm } = amounts;
  const spreadMinutes = Math.max(1, finish - start);
  return cupsFor({ material, celsius, mixGrams, filmMm, spreadMinutes, share });
}

/** Moments are rounded down: nobody gains a minute by it. */
function sheetCup({ material, start }: Mixing, cup: Cup, number: number, at: Moments): SheetCup {
  const { resinGrams, hardenerGrams, hardenerMl } = weigh(material, cup.grams);
  const when = (minute: number) => at.when(start + whole(minute));
  return {
    number,
    resinGrams,
    hardenerGrams,
    hardenerMl,
    mixAt: when(cup.mixAt),
    spreadBy: when(cup.spreadBy),
    potLifeEnds: when(cup.potLifeEnds),
  };
}

/** What the cups come to; where there are none, of all of it at once. */
function totalOf(
  { material }: Mixing,
  { mixGrams }: Amounts,
  cups: readonly SheetCup[],
): Pick<Weighed, 'resinGrams' | 'hardenerGrams' | 'hardenerMl'> {
  if (cups.length === 0) return weigh(material, mixGrams);
  const sum = (list: readonly number[]): number => summed(list.reduce((all, one) => all + one, 0));
  const millilitres = cups.flatMap(({ hardenerMl }) => hardenerMl ?? []);
  return {
    resinGrams: sum(cups.map(({ resinGrams }) => resinGrams)),
    hardenerGrams: sum(cups.map(({ hardenerGrams }) => hardenerGrams)),
    hardenerMl: millilitres.length < cups.length ? null : sum(millilitres),
  };
}

/** As warm as the resin may be; what is forecast inside the sheet's limits is not put outside them. */
function reckonedAt(mixed: number, warmest: number, { limits }: CureMaterial): number {
  const most = limits.maximumC.value;
  return mixed <= most ? Math.min(warmest, most) : warmest;
}

/**
 * What to weigh for a wet task from minute `start` to `finish`, the time that its crew takes to
 * spread it. What cannot be said, for want of a line of the data sheet, is named in `missing`.
 */
export function mixOf(task: Task, start: number, finish: number, site: MixSite): MixSheet | null {
  if (task.material === null) return null;
  const { yard, films, at } = site;
  const material = films.material(task.material);
  const missing = new Set<string>();
  const attempt = <T>(make: () => T): T | null => {
    try {
      return make();
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      missing.add(`${error.message}. ${error.cure}`);
      return null;
    }
  };
  const resin = films.resin(task.material, task.space);
  const mixed = celsiusAt(resin.expected, start);
  const celsius = reckonedAt(mixed, extremes(resin.warm, start, finish).high, material);
  const share = task.oneBatch ? 1 : yard.cupShare / 100;
  const mixing: Mixing = { task, material, start, finish, celsius, share };
  const amounts = attempt(() => amountsOfTask(yard, task, material));
  const ratio = attempt(() => weigh(material, material.mass.referenceGrams.value));
  const known = attempt(() => lawOf(material, 'pot-life')) !== null;
  const cups = amounts !== null && known ? (attempt(() => cupsOf(mixing, amounts)) ?? []) : [];
  const largest = Math.max(
    material.mass.referenceGrams.value * (cups.length === 0 ? 1 : 0),
    ...cups.map(({ grams }) => grams),
  );
  const life = known
    ? attempt(() => potLifeOf(material, celsius, largest, amounts?.filmMm ?? null))
    : null;
  const { minimumC, maximumC } = material.limits;
  if (celsius < minimumC.value || celsius > maximumC.value) {
    missing.add(
      `No cup: the resin would be at ${String(tenth(mixed))} °C; it may be mixed from ${String(minimumC.value)} to ${String(maximumC.value)} °C.`,
    );
  }
  const weighed = ratio === null ? [] : cups.map((cup, k) => sheetCup(mixing, cup, k + 1, at));
  const total = amounts === null || ratio === null ? null : totalOf(mixing, amounts, weighed);
  return {
    materialId: material.id,
    material: material.name,
    celsius: tenth(mixed),
    fabrics: amounts?.fabrics ?? [],
    resinGrams: total?.resinGrams ?? null,
    hardenerGrams: total?.hardenerGrams ?? null,
    hardenerMl: total?.hardenerMl ?? null,
    hardenerDensity: ratio?.hardenerDensity ?? null,
    ratio: ratio?.ratio ?? null,
    potLifeMinutes: life === null ? null : whole(life),
    useWithinMinutes: life === null ? null : whole(life * share),
    steps: amounts?.steps ?? [],
    cups: weighed,
    missing: [...missing],
  };
}
