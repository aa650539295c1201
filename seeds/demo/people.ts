import type { YardInput } from '#planning/yard/yard.ts';

type PersonInput = NonNullable<YardInput['people']>[number];
type Shift = NonNullable<PersonInput['shifts']>[number];

const days = (
  weekdays: readonly number[],
  from: string,
  to: string,
  pause: readonly [string, string] | null,
): Shift[] =>
  weekdays.map((weekday) => ({
    weekday,
    from,
    to,
    breaks: pause === null ? [] : [{ from: pause[0], to: pause[1] }],
  }));

const workdays = [1, 2, 3, 4, 5];
const noon = ['12:00', '12:30'] as const;

/** An hour after the shift, for a third more. */
const stays = (weekdays: readonly number[], from: string, to: string, hourlyCost: number) => ({
  hourlyCost,
  overtime: weekdays.map((weekday) => ({ weekday, from, to })),
  overtimeHourlyExtra: Math.round(hourlyCost / 3),
});

/**
 * Six builders of mixed skills, three of them part-time, and three owners. Noémie learns to
 * laminate and Tugdual to join. Wages are invented.
 */
export const people: readonly PersonInput[] = [
  {
    id: 'maelle',
    name: 'Maëlle Kerdreux',
    email: 'maelle@demo.invalid',
    roles: ['foreman', 'builder'],
    abilities: [
      { skill: 'laminating', level: 3, speed: 110 },
      { skill: 'finishing', level: 2, speed: 90 },
      { skill: 'fairing', level: 2 },
    ],
    shifts: days(workdays, '07:00', '13:30', ['10:00', '10:30']),
    ...stays([2, 4], '13:30', '15:30', 3600),
  },
  {
    id: 'tugdual',
    name: 'Tugdual Lesneur',
    email: 'tugdual@demo.invalid',
    roles: ['builder'],
    abilities: [
      { skill: 'laminating', level: 3 },
      { skill: 'joinery', level: 1, speed: 80 },
    ],
    shifts: days([1, 2, 3, 4], '07:30', '16:30', noon),
    ...stays([1, 3], '16:30', '18:00', 3200),
    exceptions: [{ date: '2026-12-08', shifts: [], reason: 'away' }],
  },
  {
    id: 'noemie',
    name: 'Noémie Dastrel',
    email: 'noemie@demo.invalid',
    roles: ['builder'],
    abilities: [
      { skill: 'joinery', level: 3, speed: 110 },
      { skill: 'laminating', level: 1, speed: 80 },
    ],
    shifts: days([2, 3, 4, 5], '08:00', '15:00', noon),
    hourlyCost: 3000,
  },
  {
    id: 'yann',
    name: 'Yann Coatrevin',
    email: 'yann@demo.invalid',
    roles: ['builder'],
    abilities: [
      { skill: 'joinery', level: 2 },
      { skill: 'fairing', level: 2 },
    ],
    shifts: days([1, 2, 3], '08:00', '16:30', noon),
    ...stays([4], '08:00', '12:00', 2900),
  },
  {
    id: 'solenn',
    name: 'Solenn Brizeur',
    email: 'solenn@demo.invalid',
    roles: ['builder'],
    abilities: [
      { skill: 'finishing', level: 3, speed: 110 },
      { skill: 'fairing', level: 3, speed: 110 },
    ],
    shifts: [...days([1, 4], '08:30', '15:00', noon), ...days([2, 5], '08:30', '12:30', null)],
    hourlyCost: 3100,
  },
  {
    id: 'gwendal',
    name: 'Gwendal Morvezen',
    email: 'gwendal@demo.invalid',
    roles: ['builder'],
    abilities: [
      { skill: 'fairing', level: 2, speed: 95 },
      { skill: 'laminating', level: 2, speed: 75 },
    ],
    shifts: [
      ...days([3, 4, 5], '12:30', '20:00', ['16:30', '17:00']),
      ...days([6], '08:00', '13:00', null),
    ],
    hourlyCost: 2700,
  },
  { id: 'odile', name: 'Odile Tremarec', email: 'odile@demo.invalid', roles: ['owner'] },
  { id: 'bastien', name: 'Bastien Hourcade', email: 'bastien@demo.invalid', roles: ['owner'] },
  { id: 'ilsa', name: 'Ilsa Fernhaven', email: 'ilsa@demo.invalid', roles: ['owner'] },
];
