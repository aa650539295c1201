import type { YardInput } from '#planning/yard/yard.ts';

const weekdays = [1, 2, 3, 4, 5, 6, 7];

/** The yard with everybody who works at all on shift at every hour: for tests of work that is done now. */
export function roundTheClock(yard: YardInput): YardInput {
  const shifts = weekdays.flatMap((weekday) => [
    { weekday, from: '00:00', to: '12:00' },
    { weekday, from: '12:00', to: '00:00' },
  ]);
  return {
    ...yard,
    people: (yard.people ?? []).map((person) =>
      person.shifts === undefined ? person : { ...person, shifts },
    ),
  };
}
