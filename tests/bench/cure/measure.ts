import { cureClock, reachedAt, type CureClock } from '#cure/clock/cure-clock.ts';
import { lagLines } from '#cure/clock/lag-lines.ts';
import { certain, type TemperatureSeries } from '#cure/clock/series.ts';
import type { ConversionLaw, CureMaterial, Milestone, Side } from '#cure/material/material.ts';
import { rateOf } from '#cure/material/rate.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '#cure/testing/cure-material.ts';
import { pipeCoating } from '#cure/testing/published.ts';
import { random } from '#kernel/random.ts';
import { closesAt, opensAt } from '#scheduling/model/lag.ts';
import type { LagTable, Problem } from '#scheduling/model/problem.ts';
import { problem } from '#scheduling/testing/make.ts';
import type { Row } from '../bench.ts';
import { climate, DAY, HORIZON } from './climates.ts';
import { direct } from './direct.ts';

/** Short rounds, and many: the quickest is then one that nothing else cut into. */
const LOOKUPS = 1 << 15;
const LOOKUP_ROUNDS = 200;
const ROUNDS = 15;
/** Minutes between the points of the table that the engine had before. */
const GRID = 5;
/** Films that are integrated the plain way, and parts of a minute when it is the measure of errors. */
const FILMS = 40;
const PARTS = 60;
/** Minutes by which plain integration itself is off, where a film meets the minimum on some nights. */
const BLUR = 0.1;

/** Milliseconds of the quickest of some rounds: what else runs only ever adds to a time. */
function quickest(work: () => void, rounds = ROUNDS): number {
  let best = Infinity;
  for (let round = 0; round < rounds; round++) {
    const began = performance.now();
    work();
    best = Math.min(best, performance.now() - began);
  }
  return best;
}

/** Nanoseconds a lookup through the engine's own door, at minutes in no order. */
function lookupNs(table: LagTable, side: Side): number {
  const asked: Problem = problem({ tables: [table], horizon: HORIZON });
  const fn = { kind: 'table', table: 0 } as const;
  const draw = random(1);
  const minutes = Int32Array.from({ length: LOOKUPS }, () => draw.below(HORIZON));
  const look = side === 'open' ? opensAt : closesAt;
  let sum = 0;
  const ms = quickest(() => {
    for (let k = 0; k < LOOKUPS; k++) sum += look(asked, fn, minutes[k]);
  }, LOOKUP_ROUNDS);
  if (sum <= 0) throw new Error('the table says nothing');
  return (1e6 * ms) / LOOKUPS;
}

/** By how much a table is off the whole minute that the clock gives, over all minutes. */
function worstOff(read: (minute: number) => number, clock: CureClock, horizon: number): number {
  let worst = 0;
  const sign = clock.side === 'open' ? 1 : -1;
  for (let minute = 0; minute <= horizon; minute++) {
    const truth = Math.min(HORIZON + 1, reachedAt(clock, minute) ?? Infinity);
    const off = sign * (read(minute) - truth);
    // On the wrong side any is too many.
    worst = Math.max(worst, off < 0 ? Infinity : off);
  }
  return worst;
}

interface Plain {
  /** Minutes between the table and plain integration, rounded to the side, at worst. */
  readonly worst: number;
  /** Microseconds of the clock and of plain integration in whole minutes, a film. */
  readonly clockUs: number;
  readonly plainUs: number;
}

function againstPlain(
  read: (minute: number) => number,
  clock: CureClock,
  series: TemperatureSeries,
): Plain {
  const law = pipeCoating.milestones[clock.milestone];
  if (law?.kind !== 'table') throw new Error('the chart has no such milestone');
  const rate = rateOf(law, clock.side, pipeCoating.limits.minimumC.value);
  const draw = random(2);
  const films = Array.from({ length: FILMS }, () => draw.below(HORIZON));
  const round = clock.side === 'open' ? Math.ceil : Math.floor;
  let worst = 0;
  for (const laid of films) {
    const exact = direct(rate, series, laid, HORIZON + 1, PARTS);
    const off = [exact - BLUR, exact + BLUR].map((moment) =>
      Math.abs(read(laid) - Math.min(HORIZON + 1, round(moment))),
    );
    worst = Math.max(worst, Math.min(...off));
  }
  let sum = 0;
  const plain = quickest(() => {
    for (const laid of films) sum += direct(rate, series, laid, HORIZON + 1, 1) > 0 ? 1 : 0;
  }, 2);
  const own = quickest(() => {
    for (const laid of films) sum += reachedAt(clock, laid) === null ? 1 : 0;
  });
  if (sum === 0) throw new Error('nothing was asked');
  return { worst, clockUs: (1000 * own) / FILMS, plainUs: (1000 * plain) / FILMS };
}

/** One table of the published chart's material in one climate. */
export function measureTable(name: string, milestone: Milestone, side: Side): Row {
  const series = climate(name);
  const make = (): CureClock => cureClock(pipeCoating, milestone, side, certain(series));
  const clock = make();
  const lines = lagLines(clock, HORIZON);
  const table: LagTable = { id: 'lines', ...lines, source: '' };
  const values = Array.from({ length: HORIZON / GRID + 1 }, (_, k) =>
    Math.min(HORIZON + 1, reachedAt(clock, k * GRID) ?? Infinity),
  );
  const steps: LagTable = { id: 'steps', grid: GRID, values, source: '' };
  const read = (of: LagTable): ((minute: number) => number) => {
    const asked = problem({ tables: [of], horizon: HORIZON });
    const fn = { kind: 'table', table: 0 } as const;
    return (minute) => (side === 'open' ? opensAt : closesAt)(asked, fn, minute);
  };
  return {
    clockMs: quickest(make),
    linesMs: quickest(() => lagLines(clock, HORIZON)),
    knots: lines.at.length,
    points: values.length,
    lookupNs: lookupNs(table, side),
    stepNs: lookupNs(steps, side),
    worstOff: worstOff(read(table), clock, HORIZON),
    stepWorstOff: worstOff(read(steps), clock, HORIZON),
    ...againstPlain(read(table), clock, series),
  };
}

/**
 * A rate model with two activation energies, those of an epoxy with a polyamidoamine (52.65 and
 * 65.47 kJ/mol, J. South China Normal Univ., abstract, read), the factors made up so that it gels
 * in hours: every film has to be integrated on its own.
 */
const MODEL: ConversionLaw = {
  kind: 'conversion',
  k1: { a: 2e6, e: 52_650 },
  k2: { a: 6e9, e: 65_470 },
  m: 1,
  n: 1.15,
  initial: 0,
  reached: 0.6,
};

/** Days of films whose every minute is compared: they cost a thousand times a table's. */
const COMPARED = 2;

export function measureModel(name: string): Row {
  const material: CureMaterial = cureMaterialOf({
    milestones: { gel: { ...tableLaw([]), ...MODEL } },
    limits: limitsOf(8, 40),
  });
  const clock = cureClock(material, 'gel', 'open', certain(climate(name)));
  const began = performance.now();
  const lines = lagLines(clock, HORIZON);
  const linesMs = performance.now() - began;
  const table: LagTable = { id: 'lines', ...lines, source: '' };
  const asked = problem({ tables: [table], horizon: HORIZON });
  const fn = { kind: 'table', table: 0 } as const;
  return {
    linesMs,
    knots: lines.at.length,
    lookupNs: lookupNs(table, 'open'),
    worstOff: worstOff((minute) => opensAt(asked, fn, minute), clock, COMPARED * DAY),
  };
}
