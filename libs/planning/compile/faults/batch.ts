import { normalise, subtract } from '#calendar/intervals.ts';
import { oneBatch } from '#cure/batch/one-batch.ts';
import { reachedAt, type CureClock } from '#cure/clock/cure-clock.ts';
import { celsiusAt } from '#cure/clock/series.ts';
import { DomainError, fault, type Fault } from '#kernel/error.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { refusedStarts } from '../films/refused.ts';
import { unbroken } from '../site/crew.ts';
import { stepPath, taskWords } from '../trace/rows.ts';
import { ableFor, headCounts, minutesWith, type Site } from '../work/activities.ts';
import { amountsOfTask } from '../work/amounts.ts';
import type { Begun } from '../work/frozen.ts';
import { timesOf, wholeCup, type WholeCup } from '../work/one-batch.ts';
import { degrees } from './climate-words.ts';

/** Minutes of starts that are judged together first. */
const GRID = 10;

interface Starts {
  readonly from: number;
  readonly to: number;
}

/** Minutes at which somebody who can is at work and the material refuses no start, in pieces [from, to). */
function startsOf(task: Task, site: Site): Starts[] {
  const { crew, films, frame, whereabouts } = site;
  const refused = normalise(
    refusedStarts(task, 0, films, whereabouts).flatMap(({ spans }) => spans),
  );
  return ableFor(task, crew).flatMap((builder) => {
    const { calendar } = crew.builders[builder];
    const free = subtract(unbroken(crew.calendars[calendar], task.breaks), refused);
    return free.flatMap(({ start, end }) => {
      const pieces: Starts[] = [];
      for (let from = Math.max(start, frame.now); from < end; from += GRID)
        pieces.push({ from, to: Math.min(end, from + GRID) });
      return pieces;
    });
  });
}

interface Longest {
  readonly minutes: number;
  readonly start: number;
}

/** The start that leaves the most minutes until the first of the clocks ends; the first that leaves enough. */
function longest(
  clocks: readonly CureClock[],
  pieces: readonly Starts[],
  enough: number,
): Longest | null {
  const ends = (start: number): number =>
    Math.min(...clocks.map((clock) => reachedAt(clock, start) ?? Infinity));
  let best: Longest | null = null;
  for (const { from, to } of pieces) {
    // Nothing that is mixed later ends sooner.
    if (best !== null && ends(to) - from <= best.minutes) continue;
    for (let start = from; start < to; start++) {
      const minutes = ends(start) - start;
      if (best === null || minutes > best.minutes) best = { minutes, start };
      if (minutes >= enough) return best;
    }
  }
  return best;
}

/** As many as there are by their own speed, and more at the nominal rate. */
function withHands(task: Task, heads: number, site: Site): number {
  const able = ableFor(task, site.crew).length;
  const own = minutesWith(task, Math.min(heads, able), site.crew, 'quickest');
  if (heads <= able) return own;
  const speed = task.workMinutes / own + (heads - able);
  return Math.max(task.floorMinutes, Math.ceil(task.workMinutes / speed));
}

const hand = (count: number): string =>
  count === 1 ? 'one pair of hands' : `${String(count)} pairs of hands`;

/** What would let it be spread in time at that start, each by itself. */
function waysOut(
  yard: Yard,
  task: Task,
  { material: id }: WholeCup,
  { start }: Longest,
  site: Site,
): string[] {
  const material = site.films.material(id);
  const amounts = amountsOfTask(yard, task, material);
  const { cold, expected, warm } = site.films.resin(id, task.space);
  const [least, forecast, most] = [cold, expected, warm].map((one) => celsiusAt(one, start));
  const found = oneBatch({
    material,
    celsius: most,
    mixGrams: amounts?.mixGrams ?? material.mass.referenceGrams.value,
    filmMm: amounts?.filmMm ?? null,
    hands: headCounts(task, site),
    spreadMinutes: (heads) => withHands(task, heads, site),
  });
  if (found === null) return [];
  const { hands, celsius, percent } = found;
  // A forecast that is as much cooler may be off by as much; no part of it may be too cold.
  const cooler = celsius === null ? null : Math.floor(2 * (celsius - most + forecast)) / 2;
  const mild = cooler !== null && cooler - forecast + least >= material.limits.minimumC.value;
  return [
    hands === null ? '' : `with ${hand(hands)}`,
    mild ? `with resin at ${degrees(cooler)}` : '',
    percent === null ? '' : `with ${String(percent)} % hardener`,
  ].filter((way) => way !== '');
}

function batchFault(yard: Yard, task: Task, site: Site): Fault | null {
  const { films } = site;
  const cup = wholeCup(yard, task, films);
  if (cup === null) return null;
  const clocks = cup.ends.map((milestone) =>
    films.clock(cup.material, milestone, 'close', [task.space], timesOf(cup, milestone)),
  );
  const hands = headCounts(task, site);
  const quickest = Math.min(...hands.map((heads) => withHands(task, heads, site)));
  const best = longest(clocks, startsOf(task, site), quickest);
  if (best === null || quickest <= best.minutes) return null;
  const ways = waysOut(yard, task, cup, best, site);
  const lasts = `which lasts ${String(best.minutes)} min at the most`;
  const takes = `takes ${String(quickest)} min to spread with ${hand(Math.max(...hands))}`;
  return fault(
    'cure.batch',
    stepPath(yard, task),
    `${taskWords(yard, task)} is one batch, ${lasts}, and ${takes}${ways.length === 0 ? '' : `: it would do ${ways.join(', or ')}`}`,
    { value: task.id, cure: 'Or lay it in laps, as a step that is not one batch.' },
  );
}

/**
 * Batches that no crew that is allowed can spread in time, at whatever minute it is at work, with
 * the crew, the temperature or the hardener that could: cure.batch. Also what keeps a batch from
 * being weighed, with the code of that.
 */
export function batchFaults(
  yard: Yard,
  tasks: readonly Task[],
  begun: ReadonlyMap<string, Begun>,
  site: Site,
): Fault[] {
  return tasks.flatMap((task) => {
    if (!task.oneBatch || begun.has(task.id)) return [];
    try {
      return batchFault(yard, task, site) ?? [];
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const { code, message, cure } = error;
      const told = `${taskWords(yard, task)} cannot be weighed: ${message}`;
      return [fault(code, stepPath(yard, task), told, { value: task.id, cure })];
    }
  });
}
