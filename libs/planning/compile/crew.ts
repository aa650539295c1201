import { subtract } from '#calendar/intervals.ts';
import { expandShifts } from '#calendar/shifts/expand.ts';
import type { Builder, Calendar, Interval } from '#scheduling/model/problem.ts';
import type { Yard } from '../yard/yard.ts';
import type { Frame } from './time.ts';

/** The yard's builders as the engine's, in the yard's order, each with an own calendar. */
export interface Crew {
  readonly skills: readonly string[];
  readonly calendars: readonly Calendar[];
  readonly builders: readonly Builder[];
  readonly skillIndex: ReadonlyMap<string, number>;
  readonly builderIndex: ReadonlyMap<string, number>;
  /** Indices of the builders who have the skill at the level or above. */
  able(skill: string, minLevel: number): number[];
  speed(builder: number, skill: string): number;
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
      return index === undefined ? [] : [{ skill: index, level, speed }];
    }),
    source: `person:${person.id}`,
  }));
  const abilityOf = (builder: number, skill: string): Builder['abilities'][number] | undefined =>
    builders[builder].abilities.find((ability) => ability.skill === skillIndex.get(skill));
  return {
    skills,
    calendars: people.map((person) => ({
      id: person.id,
      ...expandShifts(person.shifts, person.exceptions, yard.timeZone, frame.origin, frame.horizon),
    })),
    builders,
    skillIndex,
    builderIndex: new Map(people.map(({ id }, k) => [id, k])),
    able: (skill, minLevel) =>
      builders.map((_, k) => k).filter((k) => (abilityOf(k, skill)?.level ?? 0) >= minLevel),
    speed: (builder, skill) => abilityOf(builder, skill)?.speed ?? 0,
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

/** Spans that work in one piece may use: whole shifts, or what lies between observed breaks. */
export const unbroken = (
  calendar: Calendar,
  breaks: 'relieved' | 'observed',
): readonly Interval[] =>
  breaks === 'relieved' ? calendar.shifts : subtract(calendar.shifts, calendar.breaks);
