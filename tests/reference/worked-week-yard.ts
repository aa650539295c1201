import { yardSchema, type Yard, type YardInput } from '#planning/yard/yard.ts';
import { materials, procedures, SOURCE } from './worked-week-work.ts';

const monday = '2026-11-02';

/** Hourly outdoor temperatures of fourteen days from Sunday on: 10 to 17 degrees, but for one night. */
function outdoor(): number[] {
  return Array.from({ length: 14 * 24 }, (_, hour) => {
    const mild = 13.5 + 3.5 * Math.sin((2 * Math.PI * (hour - 9)) / 24);
    // From 18:00 on Tuesday until 10:00 on Wednesday it is 9 degrees colder.
    const cold = hour >= 66 && hour < 82 ? 9 : 0;
    return Math.round((mild - cold) * 10) / 10;
  });
}

const shifts = [1, 2, 3, 4, 5].map((weekday) => ({
  weekday,
  from: '08:00',
  to: '16:30',
  breaks: [{ from: '12:00', to: '12:30' }],
}));

const builder = (
  id: string,
  name: string,
  ...abilities: readonly [skill: string, level: number][]
): NonNullable<YardInput['people']>[number] => ({
  id,
  name,
  roles: ['builder'],
  abilities: abilities.map(([skill, level]) => ({ skill, level })),
  shifts,
  hourlyCost: 3000,
});

const every = [1, 2, 3, 4, 5, 6, 7];

const hull = (id: string, name: string): NonNullable<YardInput['spaces']>[number] => ({
  id,
  name,
  climate: { kind: 'outdoors', lagHours: 2, warmerBy: 3 },
  bandC: 0,
  room: 3,
  dustReaches: [id],
  settlingMinutes: 30,
});

type JobInput = NonNullable<
  NonNullable<
    NonNullable<NonNullable<YardInput['boats']>[number]['refits']>[number]['parts']
  >[number]['jobs']
>[number];

const boat = (
  id: string,
  name: string,
  weight: number,
  fridays: readonly string[],
  parts: readonly (readonly [id: string, name: string, space: string, jobs: JobInput[]])[],
  last: string[],
): NonNullable<YardInput['boats']>[number] => ({
  id,
  name,
  refits: [
    {
      id: `${id}-refit`,
      name,
      release: `${monday}T08:00:00Z`,
      promised: LORRY[0],
      handovers: [...fridays],
      weight,
      parts: [
        ...parts.map(([part, words, space, jobs]) => ({
          id: part,
          name: words,
          space,
          areaM2: 1,
          jobs,
        })),
        {
          id: `${id}-hull`,
          name: 'Hull',
          space: `${id}-inside`,
          areaM2: 20,
          jobs: [{ id: `${id}-lift`, procedure: 'lift', after: last }],
        },
      ],
    },
  ],
});

/** When the lorry takes away what has been lifted. */
const LORRY = ['2026-11-06T17:00:00Z', '2026-11-13T17:00:00Z'] as const;

export interface Otherwise {
  /** When the foam core for Sula comes. */
  readonly core?: string;
  /** False: a boat is handed over as soon as she is lifted. */
  readonly lorry?: boolean;
  /** False: the surveyor does not come on Wednesday. */
  readonly wednesday?: boolean;
}

/** The yard of `worked-week.md`, or what it might have been. */
export function workedWeek({
  core = '2026-11-04T12:00:00Z',
  lorry = true,
  wednesday = true,
}: Otherwise = {}): Yard {
  const fridays = lorry ? LORRY : [];
  return yardSchema.parse({
    format: 'curewright-yard',
    version: 1,
    id: 'worked-week',
    name: 'A worked week',
    timeZone: 'Etc/UTC',
    planFrom: `${monday}T08:00:00Z`,
    horizonDays: 14,
    outdoor: { from: '2026-11-01T00:00:00Z', celsius: outdoor(), source: SOURCE },
    skills: [
      { id: 'laminating', name: 'Laminating' },
      { id: 'joinery', name: 'Joinery' },
      { id: 'finishing', name: 'Finishing' },
    ],
    people: [
      builder('ada', 'Ada', ['laminating', 3], ['joinery', 2]),
      builder('bo', 'Bo', ['joinery', 3]),
      builder('cem', 'Cem', ['finishing', 3]),
    ],
    spaces: [
      {
        id: 'bench',
        name: 'Bench',
        climate: {
          kind: 'heated',
          setPoints: [
            { weekdays: every, from: '06:00', celsius: 20 },
            { weekdays: every, from: '18:00', celsius: 16 },
          ],
        },
        bandC: 0,
        room: 3,
        dustReaches: ['bench'],
        settlingMinutes: 30,
      },
      hull('alca-inside', 'Inside Alca'),
      hull('sula-inside', 'Inside Sula'),
    ],
    deliveries: [
      { id: 'core', name: 'Foam core', expected: core },
      { id: 'flow-coat', name: 'Flow coat', expected: '2026-11-03T14:30:00Z' },
      { id: 'glass', name: 'Glass for the knee', expected: '2026-11-05T10:00:00Z' },
    ],
    slotLists: [
      {
        id: 'crane',
        name: 'Crane',
        kind: 'crane',
        slots: ['2026-11-06', '2026-11-10', '2026-11-13'].map((date) => ({
          from: `${date}T11:00:00Z`,
          to: `${date}T12:00:00Z`,
          price: 40_000,
          booked: true,
        })),
      },
      {
        id: 'surveyor',
        name: 'Surveyor',
        kind: 'surveyor',
        slots: [
          ...(wednesday ? [{ from: '2026-11-04T10:00:00Z', to: '2026-11-04T11:00:00Z' }] : []),
          { from: '2026-11-06T09:00:00Z', to: '2026-11-06T10:00:00Z' },
          { from: '2026-11-10T14:00:00Z', to: '2026-11-10T15:00:00Z' },
        ],
      },
    ],
    materials: [...materials],
    procedures,
    boats: [
      boat(
        'alca',
        'Alca',
        1,
        fridays,
        [
          [
            'alca-bulkhead',
            'Bulkhead',
            'bench',
            [{ id: 'alca-bulkhead', procedure: 'bulkhead', destination: 'alca-inside' }],
          ],
          [
            'alca-locker',
            'Locker',
            'alca-inside',
            [{ id: 'alca-locker', procedure: 'locker-coats' }],
          ],
          [
            'alca-bilge',
            'Bilge',
            'alca-inside',
            [
              {
                id: 'alca-bilge',
                procedure: 'flow-coat',
                waitsFor: [{ delivery: 'flow-coat', step: null }],
              },
            ],
          ],
          [
            'alca-knee',
            'Knee',
            'alca-inside',
            [
              {
                id: 'alca-knee',
                procedure: 'knee',
                after: ['alca-bulkhead'],
                waitsFor: [{ delivery: 'glass', step: 'laminate' }],
              },
            ],
          ],
        ],
        ['alca-bulkhead', 'alca-locker', 'alca-bilge', 'alca-knee'],
      ),
      boat(
        'sula',
        'Sula',
        3,
        fridays,
        [
          [
            'sula-panel',
            'Panel',
            'bench',
            [
              {
                id: 'sula-panel',
                procedure: 'panel',
                destination: 'sula-inside',
                waitsFor: [{ delivery: 'core', step: 'cut' }],
              },
            ],
          ],
        ],
        ['sula-panel'],
      ),
    ],
  } satisfies YardInput);
}
