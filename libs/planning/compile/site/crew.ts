import { subtract, union } from '#calendar/intervals.ts';
import { expandShifts } from '#calendar/shifts/expand.ts';
import type { Builder, Calendar, Interval } from '#scheduling/model/problem.ts';
import type { Yard } from '../../yard/yard.ts';
import { once } from '../once.ts';
import { overtimeOf } from '../frame/hours.ts';
import type { Frame } from '../frame/time.ts';

const LEARNER = 1;

export type Pace = 'quickest' | 'slowest';

/** The yard's builders as the engine's, in the yard's order, each with an own calendar. */
export interface Crew {
  readonly skills: readonly string[];
  readonly calendars: readonly Calendar[];
  readonly builders: readonly Builder[];
  readonly skillIndex: ReadonlyMap<string, number>;
  readonly builderIndex: ReadonlyMap<string, number>;
  /** Indices of the builders who have the skill at the level or above. */
  able(skill: string, minLevel: number): readonly number[];
  speed(builder: number, skill: string): number;
  learns(builder: number, skill: string): boolean;
  /** Speed of the quickest or slowest so many, a non-learner among them; null where all are learners. */
  pace(skill: string, minLevel: number, heads: number, who: Pace): number | null;
  /** Working time without breaks from a minute on, which may lie before the plan's beginning. */
  worksFrom(builder: number, minute: number): Interval[];
}

export function crewOf(yard: Yard, frame: Frame): Crew {
  const people = yard.people.filter((person) => person.roles.includes('builder'));
  const skills = yard.skills.map(({ id }) => id);
  const skillIndex = new Map(skills.map((id, k) => [id, k]));
  const builders = people.map((person, calendar): Builder => ({
    id: person.id,
    calendar,
    abilities: person.abilities.flatMap(({ skill, level, speed }) => {
      const index = skillIndex.get(skill);
      return index === undefined
        ? []
        : [{ skill: index, level, speed, needsSenior: level === LEARNER }];
    }),
    cost: person.hourlyCost,
    unlimited: false,
    source: `person:${person.id}`,
  }));
  const abilityOf = (builder: number, skill: string): Builder['abilities'][number] | undefined =>
    builders[builder].abilities.find((ability) => ability.skill === skillIndex.get(skill));
  const known = new Map<string, readonly number[]>();
  const able: Crew['able'] = (skill, minLevel) =>
    once(known, `${skill}/${String(minLevel)}`, () =>
      builders.map((_, k) => k).filter((k) => (abilityOf(k, skill)?.level ?? 0) >= minLevel),
    );
  const paces = new Map<string, number | null>();
  const paceOf: Crew['pace'] = (skill, minLevel, heads, who) => {
    const rated = able(skill, minLevel)
      .map((builder) => ({
        speed: abilityOf(builder, skill)?.speed ?? 0,
        learns: abilityOf(builder, skill)?.needsSenior ?? false,
      }))
      .sort((a, b) => (who === 'quickest' ? b.speed - a.speed : a.speed - b.speed));
    const first = rated.findIndex(({ learns }) => !learns);
    if (first < 0) return null;
    const [senior] = rated.splice(first, 1);
    return rated.slice(0, heads - 1).reduce((total, { speed }) => total + speed, senior.speed);
  };
  return {
    skills,
    calendars: people.map((person) => {
      const { shifts, exceptions, overtimeHourlyExtra: cost } = person;
      const time = expandShifts(shifts, exceptions, yard.timeZone, frame.origin, frame.horizon);
      const overtime = overtimeOf(person, time.shifts, frame).map((span) => ({ ...span, cost }));
      return { id: person.id, ...time, overtime, source: `calendar:${person.id}` };
    }),
    builders,
    skillIndex,
    builderIndex: new Map(people.map(({ id }, k) => [id, k])),
    able,
    pace: (skill, minLevel, heads, who) =>
      once(paces, `${skill}/${String(minLevel)}/${String(heads)}/${who}`, () =>
        paceOf(skill, minLevel, heads, who),
      ),
    speed: (builder, skill) => abilityOf(builder, skill)?.speed ?? 0,
    learns: (builder, skill) => abilityOf(builder, skill)?.needsSenior ?? false,
    worksFrom: (builder, minute) => {
      const { shifts, exceptions } = people[builder];
      const length = frame.horizon - minute;
      const time = expandShifts(shifts, exceptions, yard.timeZone, frame.isoAt(minute), length);
      return subtract(time.shifts, time.breaks).map(({ start, end }) => ({
        start: start + minute,
        end: end + minute,
      }));
    },
  };
}

/**
 * Spans that work in one piece may use, overtime included: whole shifts, or what lies between
 * observed breaks.
 */
export function unbroken(
  { shifts, breaks, overtime }: Calendar,
  kept: 'relieved' | 'observed',
): readonly Interval[] {
  const all = union(shifts, overtime);
  return kept === 'relieved' ? all : subtract(all, breaks);
}
