import { addDays, weekStart } from '#calendar/local-date.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { roundTheClock } from './round-the-clock.ts';
import { smallYard } from './small-yard.ts';

type PersonInput = NonNullable<YardInput['people']>[number];
type BoatInput = NonNullable<YardInput['boats']>[number];

/** Builders besides Bram, with his skills and shifts. */
export const moreBuilders = ['anke', 'cato', 'dirk', 'elin'] as const;

/**
 * The small yard with the boats of two owners, four builders more and a painter who can only
 * fair; its plan began on the Monday of last week, so that its work can be taken up now,
 * at whatever hour that is: somebody is always at work.
 */
export function twoBoats(today: string): YardInput {
  const small = smallYard();
  const monday = addDays(weekStart(today), -7);
  const release = `${monday}T07:00:00Z`;
  const promised = `${addDays(monday, 60)}T16:00:00Z`;
  const bram = person(small, 'bram');
  const odile = person(small, 'odile');
  const boat = (id: string, name: string, owner: string): BoatInput => ({
    id,
    name,
    owner,
    refits: [
      {
        id: `${id}-refit`,
        name: `${name}, hatch`,
        release,
        promised,
        parts: [
          {
            id: `${id}-hatch`,
            name: `Hatch of ${name}`,
            space: id === 'petrel' ? 'bay' : 'hull',
            areaM2: 2,
            jobs: [{ id: `${id}-panel`, procedure: 'panel' }],
          },
        ],
      },
    ],
  });
  const named = (id: string): PersonInput => ({ ...bram, id, name: id, email: `${id}@yard.test` });
  return roundTheClock({
    ...small,
    planFrom: release,
    horizonDays: 90,
    outdoor: {
      from: `${monday}T00:00:00Z`,
      celsius: Array.from({ length: 24 * 90 }, () => 12),
      source: 'invented',
    },
    people: [
      ...(small.people ?? []),
      ...moreBuilders.map(named),
      { ...named('fay'), abilities: [{ skill: 'fairing', level: 2 }] },
      { ...odile, id: 'otto', name: 'Otto', email: 'otto@yard.test' },
    ],
    boats: [boat('petrel', 'Petrel', 'odile'), boat('heron', 'Heron', 'otto')],
  });
}

function person({ people = [] }: YardInput, wanted: string): PersonInput {
  const found = people.find(({ id }) => id === wanted);
  if (!found) throw new Error(`the small yard has nobody "${wanted}"`);
  return found;
}
