import type { CrewDemand, Mode, Problem } from '../../model/problem.ts';
import { workTable, type WorkTable } from './spans.ts';

/** One way to man a mode: who serves which demand, the time they share, and how long they take. */
export interface CrewOption {
  readonly builders: readonly number[];
  /** Index into the mode's `crew`, by position in `builders`. */
  readonly demands: readonly number[];
  readonly table: WorkTable;
  /** The same where breaks are relieved and work may even begin in one. */
  readonly relieved: WorkTable;
  readonly minutes: number;
  /** How much the rest of the work would miss these builders; breaks ties between crews. */
  readonly scarcity: number;
}

/** All crews of a mode, or the most promising of them. */
export interface CrewList {
  readonly options: readonly CrewOption[];
  /** False where crews were left out: then no bound may be argued from the list. */
  readonly complete: boolean;
}

/** More crews than this are not tried; a mode for three of twelve builders has 220. */
const MOST_CREWS = 400;
const MOST_ENUMERATED = 20_000;

/** The speed with which a builder serves a demand, or 0 where not able to. */
export function speedFor(problem: Problem, builder: number, demand: CrewDemand): number {
  const { abilities } = problem.builders[builder];
  if (!abilities.some((a) => a.skill === demand.skill && a.level >= demand.minLevel)) return 0;
  return abilities.find((a) => a.skill === demand.skill)?.speed ?? 0;
}

const minutesOf = (mode: Mode, speed: number): number =>
  Math.max(mode.floor, Math.ceil(mode.work / speed));

interface Tables {
  readonly table: WorkTable;
  readonly relieved: WorkTable;
}

/** Tables of shared time by set of calendars, made when first asked for. */
export function tableCache(problem: Problem): (builders: readonly number[]) => Tables {
  const known = new Map<string, Tables>();
  return (builders) => {
    const calendars = [...new Set(builders.map((b) => problem.builders[b].calendar))].sort(
      (a, b) => a - b,
    );
    const key = calendars.join(',');
    let tables = known.get(key);
    if (!tables) {
      const table = workTable(
        calendars.map((c) => problem.calendars[c]),
        problem.horizon,
      );
      tables = { table, relieved: { shifts: table.shifts, work: table.shifts } };
      known.set(key, tables);
    }
    return tables;
  };
}

/**
 * For each builder, the work that asks for the builder's skills, a share for each able
 * person: minutes that would have to wait for this one.
 */
export function builderScarcity(problem: Problem): number[] {
  const load = problem.skills.map(() => 0);
  for (const { modes } of problem.activities) {
    const mode = modes[0];
    for (const demand of mode.crew) {
      const heads = mode.crew.reduce((sum, d) => sum + d.count, 0);
      load[demand.skill] += (mode.work / 100 / Math.max(1, heads)) * demand.count;
    }
  }
  const able = problem.skills.map(
    (_, s) => problem.builders.filter((b) => b.abilities.some((a) => a.skill === s)).length,
  );
  return problem.builders.map((builder) => {
    const skills = new Set(builder.abilities.map((a) => a.skill));
    return [...skills].reduce((sum, s) => sum + load[s] / Math.max(1, able[s]), 0);
  });
}

interface Draft {
  readonly builders: number[];
  readonly demands: number[];
  readonly speed: number;
}

function enumerate(
  problem: Problem,
  mode: Mode,
  only: readonly number[] | null,
): { drafts: Draft[]; complete: boolean } {
  const drafts: Draft[] = [];
  const able = mode.crew.map((demand) =>
    problem.builders
      .map((_, b) => ({ builder: b, speed: speedFor(problem, b, demand) }))
      .filter((one) => one.speed > 0 && (only === null || only.includes(one.builder))),
  );
  let complete = true;
  const builders: number[] = [];
  const demands: number[] = [];
  const walk = (d: number, left: number, from: number, speed: number): void => {
    if (!complete) return;
    if (d === mode.crew.length) {
      if (only !== null && builders.length !== only.length) return;
      drafts.push({ builders: [...builders], demands: [...demands], speed });
      if (drafts.length >= MOST_ENUMERATED) complete = false;
      return;
    }
    if (left === 0) {
      walk(d + 1, d + 1 < mode.crew.length ? mode.crew[d + 1].count : 0, 0, speed);
      return;
    }
    for (let i = from; i < able[d].length; i += 1) {
      const one = able[d][i];
      if (builders.includes(one.builder)) continue;
      builders.push(one.builder);
      demands.push(d);
      walk(d, left - 1, i + 1, speed + one.speed);
      builders.pop();
      demands.pop();
    }
  };
  walk(0, mode.crew.length > 0 ? mode.crew[0].count : 0, 0, 0);
  return { drafts, complete };
}

/** All crews for a mode that needs people; `only`: exactly these builders, as the foreman set it. */
export function crewList(
  problem: Problem,
  mode: Mode,
  only: readonly number[] | null,
  scarcity: readonly number[],
  tablesFor: (builders: readonly number[]) => Tables,
): CrewList {
  const { drafts, complete } = enumerate(problem, mode, only);
  const options = drafts
    .map((draft) => ({
      builders: draft.builders,
      demands: draft.demands,
      ...tablesFor(draft.builders),
      minutes: minutesOf(mode, draft.speed),
      scarcity: draft.builders.reduce((sum, b) => sum + scarcity[b], 0),
    }))
    .sort((a, b) => a.scarcity - b.scarcity || a.minutes - b.minutes);
  if (options.length <= MOST_CREWS) return { options, complete };
  // Keep a spread: every crew by rank in steps, so that rare builders stay reachable.
  const step = options.length / MOST_CREWS;
  const kept = Array.from({ length: MOST_CREWS }, (_, i) => options[Math.floor(i * step)]);
  return { options: kept, complete: false };
}
