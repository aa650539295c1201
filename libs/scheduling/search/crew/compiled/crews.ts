import { random as seeded } from '#kernel/random.ts';
import type { Ability, CrewDemand, Mode, Problem } from '../../../model/problem.ts';
import { workTable, type WorkTable } from './spans.ts';

/** Time shared, and the same where breaks are relieved and work may even begin in one. */
export interface Tables {
  readonly table: WorkTable;
  readonly relieved: WorkTable;
}

/** One way to man a mode: who serves which demand, the time they share, and how long they take. */
export interface CrewOption {
  readonly builders: readonly number[];
  /** Those of them that can be in one place only. */
  readonly booked: readonly number[];
  /** Index into the mode's `crew`, by position in `builders`. */
  readonly demands: readonly number[];
  /** By position in `booked`, the time that each has alone, overtime counted in as for the crew. */
  readonly alone: readonly Tables[];
  /** Time that they share with each other and with the calendars of the mode's resources. */
  readonly table: WorkTable;
  /** The same where breaks are relieved and work may even begin in one. */
  readonly relieved: WorkTable;
  /** The table counts their overtime in. */
  readonly overtime: boolean;
  readonly minutes: number;
  /** Money for their minutes, clean-down included, on top of the mode's own and of overtime. */
  readonly pay: number;
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
export const MOST_CREWS = 400;
/** Where there are more than these, crews are drawn instead of enumerated. */
const MOST_ENUMERATED = 4000;

const abilityIn = (problem: Problem, builder: number, skill: number): Ability | undefined =>
  problem.builders[builder].abilities.find((a) => a.skill === skill);

/** The speed with which a builder serves a demand, or 0 where not able to. */
export function speedFor(problem: Problem, builder: number, demand: CrewDemand): number {
  const { abilities } = problem.builders[builder];
  if (!abilities.some((a) => a.skill === demand.skill && a.level >= demand.minLevel)) return 0;
  return abilityIn(problem, builder, demand.skill)?.speed ?? 0;
}

const minutesOf = (mode: Mode, speed: number): number =>
  Math.max(mode.floor, Math.ceil(mode.work / speed));

type TableSource = (
  builders: readonly number[],
  hours: readonly number[],
  overtime: boolean,
) => Tables;

/** Tables of shared time by sets of calendars, of people and of resources, made when first asked for. */
export function tableCache(problem: Problem): TableSource {
  const known = new Map<string, Tables>();
  return (builders, hours, overtime) => {
    const calendars = [...new Set(builders.map((b) => problem.builders[b].calendar))].sort(
      (a, b) => a - b,
    );
    const key = [calendars.join(), hours.join(), String(overtime)].join(';');
    let tables = known.get(key);
    if (!tables) {
      const table = workTable(
        calendars.map((c) => problem.calendars[c]),
        problem.horizon,
        hours.map((c) => problem.calendars[c]),
        overtime,
      );
      tables = { table, relieved: { shifts: table.shifts, work: table.shifts } };
      known.set(key, tables);
    }
    return tables;
  };
}

/** The calendars of the resources that the mode takes some of, each once, in order. */
export const hoursOf = (problem: Problem, mode: Mode): number[] =>
  [
    ...new Set(
      mode.demands.flatMap(({ resource, amount }) => {
        const { calendar } = problem.resources[resource];
        return amount > 0 && calendar !== null ? [calendar] : [];
      }),
    ),
  ].sort((a, b) => a - b);

/**
 * For each builder, the work that asks for the builder's skills, a share for each able
 * person: minutes that would have to wait for this one.
 */
function builderScarcity(problem: Problem): number[] {
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

interface Able {
  readonly builder: number;
  readonly speed: number;
}

/** By demand, who can serve it. */
const ableFor = (problem: Problem, mode: Mode, only: readonly number[] | null): Able[][] =>
  mode.crew.map((demand) =>
    problem.builders
      .map((_, builder) => ({ builder, speed: speedFor(problem, builder, demand) }))
      .filter((one) => one.speed > 0 && (only === null || only.includes(one.builder))),
  );

function enumerate(
  mode: Mode,
  able: readonly (readonly Able[])[],
  only: readonly number[] | null,
): Draft[] {
  const drafts: Draft[] = [];
  const builders: number[] = [];
  const demands: number[] = [];
  const walk = (d: number, left: number, from: number, speed: number): void => {
    if (d === mode.crew.length) {
      if (only !== null && builders.length !== only.length) return;
      drafts.push({ builders: [...builders], demands: [...demands], speed });
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
  return drafts;
}

/** Roughly how many crews there are: those with the same people in other roles counted apart. */
function countOf(able: readonly (readonly Able[])[], mode: Mode): number {
  let total = 1;
  mode.crew.forEach(({ count }, d) => {
    for (let i = 0; i < count; i += 1) total *= (able[d].length - i) / (i + 1);
  });
  return total;
}

/**
 * Crews drawn at random, the same each time: each demand in turn takes whom it can get of those
 * that are left, in half of the crews the less sought-after of two.
 */
function drawn(
  mode: Mode,
  able: readonly (readonly Able[])[],
  scarcity: readonly number[],
): Draft[] {
  const random = seeded(mode.work);
  // Demands that few can serve choose first.
  const order = mode.crew.map((_, d) => d).sort((a, b) => able[a].length - able[b].length);
  const draw = (spare: boolean): Draft | null => {
    const builders: number[] = [];
    const demands: number[] = [];
    let speed = 0;
    for (const d of order) {
      const left = able[d].filter((one) => !builders.includes(one.builder));
      for (let k = 0; k < mode.crew[d].count; k += 1) {
        if (left.length === 0) return null;
        let at = random.below(left.length);
        const other = random.below(left.length);
        if (spare && scarcity[left[other].builder] < scarcity[left[at].builder]) at = other;
        const [one] = left.splice(at, 1);
        builders.push(one.builder);
        demands.push(d);
        speed += one.speed;
      }
    }
    return { builders, demands, speed };
  };
  return Array.from({ length: MOST_CREWS }, (_, k) => draw(k % 2 === 0)).filter(
    (draft) => draft !== null,
  );
}

/** Every learner beside somebody of the crew who has the skill served at a higher level. */
const taught = (problem: Problem, mode: Mode, { builders, demands }: Draft): boolean =>
  builders.every((builder, i) => {
    const { skill } = mode.crew[demands[i]];
    const own = abilityIn(problem, builder, skill);
    if (own?.needsSenior !== true) return true;
    return builders.some((other) => (abilityIn(problem, other, skill)?.level ?? 0) > own.level);
  });

/** The same people as fast in other roles are the same crew. */
function distinct(drafts: readonly Draft[]): Draft[] {
  const seen = new Set<string>();
  return drafts.filter(({ builders, speed }) => {
    const key = `${builders.toSorted((a, b) => a - b).join()}:${String(speed)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** A crew whatever the amount of work: what all modes with the same demands have in common. */
interface Team {
  readonly option: Omit<CrewOption, 'minutes' | 'pay'>;
  readonly speed: number;
  /** Money for a minute of all of them. */
  readonly rate: number;
}

interface Teams {
  readonly teams: readonly Team[];
  readonly complete: boolean;
}

function teamsOf(
  problem: Problem,
  mode: Mode,
  only: readonly number[] | null,
  scarcity: readonly number[],
  tablesFor: TableSource,
): Teams {
  const candidates = ableFor(problem, mode, only);
  const complete = countOf(candidates, mode) <= MOST_ENUMERATED;
  const drafts = complete ? enumerate(mode, candidates, only) : drawn(mode, candidates, scarcity);
  const hours = hoursOf(problem, mode);
  const team = ({ builders, demands, speed }: Draft, overtime: boolean): Team => {
    const booked = builders.filter((b) => !problem.builders[b].unlimited);
    return {
      option: {
        builders,
        booked,
        alone: booked.map((b) => tablesFor([b], hours, overtime)),
        demands,
        ...tablesFor(builders, hours, overtime),
        overtime,
        scarcity: builders.reduce((sum, b) => sum + scarcity[b], 0),
      },
      speed,
      rate: builders.reduce((sum, b) => sum + problem.builders[b].cost, 0),
    };
  };
  const hasOvertime = ({ builders }: Draft): boolean =>
    builders.some((b) => problem.calendars[problem.builders[b].calendar].overtime.length > 0);
  const able = distinct(drafts.filter((draft) => taught(problem, mode, draft)));
  const teams = [
    ...able.map((draft) => team(draft, false)),
    ...able.filter(hasOvertime).map((draft) => team(draft, true)),
  ];
  return { teams, complete };
}

/** Gives all crews for a mode that needs people; `only`: exactly these builders, as the foreman set it. */
export type CrewSource = (mode: Mode, only: readonly number[] | null) => CrewList;

/**
 * Crews without overtime and, where any of them has some, with it. Teams of modes with the same
 * demands are made once.
 */
export function crewSource(problem: Problem, tablesFor: TableSource): CrewSource {
  const scarcity = builderScarcity(problem);
  const known = new Map<string, Teams>();
  return (mode, only) => {
    const key = JSON.stringify([mode.crew, hoursOf(problem, mode), only]);
    const { teams, complete } = known.get(key) ?? teamsOf(problem, mode, only, scarcity, tablesFor);
    // Crews that were drawn depend on the work.
    if (complete) known.set(key, { teams, complete });
    const options = teams
      .map(({ option, speed, rate }): CrewOption => {
        const minutes = minutesOf(mode, speed);
        return { ...option, minutes, pay: rate * (minutes + mode.cleanDown) };
      })
      .sort(
        (a, b) =>
          Number(a.overtime) - Number(b.overtime) ||
          a.scarcity - b.scarcity ||
          a.minutes - b.minutes,
      );
    if (options.length <= MOST_CREWS) return { options, complete };
    // Keep a spread: every crew by rank in steps, so that rare builders stay reachable.
    const step = options.length / MOST_CREWS;
    const kept = Array.from({ length: MOST_CREWS }, (_, i) => options[Math.floor(i * step)]);
    return { options: kept, complete: false };
  };
}
