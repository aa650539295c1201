import type { YardInput } from '#planning/yard/yard.ts';

/** A foreman, a builder, an owner; two spaces, one resin, one procedure, one boat with a part. */
export function smallYard(id = 'small', name = 'Small yard'): YardInput {
  const shifts = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '07:00', to: '16:00' }));
  return {
    format: 'curewright-yard',
    version: 1,
    id,
    name,
    timeZone: 'Europe/London',
    planFrom: '2026-11-30T07:00:00Z',
    horizonDays: 30,
    outdoor: { from: '2026-11-30T00:00:00Z', celsius: [6, 6, 5, 5, 7, 9], source: 'invented' },
    skills: [
      { id: 'laminating', name: 'Laminating' },
      { id: 'fairing', name: 'Fairing' },
    ],
    people: [
      { id: 'ines', name: 'Ines', email: 'ines@yard.test', roles: ['foreman'] },
      {
        id: 'bram',
        name: 'Bram',
        email: 'bram@yard.test',
        roles: ['builder'],
        abilities: [
          { skill: 'laminating', level: 2 },
          { skill: 'fairing', level: 2 },
        ],
        shifts,
      },
      { id: 'odile', name: 'Odile', email: 'odile@yard.test', roles: ['owner'] },
    ],
    spaces: [
      {
        id: 'bay',
        name: 'Bench bay',
        climate: {
          kind: 'heated',
          setPoints: [{ weekdays: [1, 2, 3, 4, 5, 6, 7], from: '00:00', celsius: 20 }],
        },
        bandC: 0,
        room: 3,
        dustReaches: ['bay'],
        settlingMinutes: 30,
      },
      {
        id: 'hull',
        name: 'Open hull',
        climate: { kind: 'outdoors', lagHours: 3, warmerBy: 2 },
        bandC: 0,
        room: 2,
        dustReaches: [],
        settlingMinutes: 30,
      },
    ],
    tools: [{ id: 'sander', name: 'Sander', count: 2 }],
    materials: [
      {
        id: 'epoxy',
        name: 'Slow epoxy',
        resinSystem: 'epoxy',
        minimumC: 5,
        maximumC: 35,
        belowMinimum: 'stalls',
        milestones: [
          milestone('pot-life', 40, 20),
          milestone('dust-safe', 600, 240),
          milestone('bond-opens', 300, 120),
          milestone('bond-closes', 1800, 900),
          milestone('sandable', 2400, 900),
          milestone('cured', 20_160, 10_080),
        ],
      },
    ],
    procedures: [
      {
        id: 'panel',
        version: 1,
        name: 'Laminate and fair a panel',
        steps: [
          step(
            'lay-up',
            'laminating',
            { fixed: 30, perM2: 40, source: 'invented' },
            'wet',
            'epoxy',
          ),
          step('fair', 'fairing', { fixed: 15, perM2: 30, source: 'invented' }, 'dusty', null),
        ],
        links: [
          {
            id: 'cure',
            from: 'lay-up',
            to: 'fair',
            opens: { kind: 'milestone', milestone: 'sandable' },
          },
        ],
      },
    ],
    boats: [
      {
        id: 'petrel',
        name: 'Petrel',
        owner: 'odile',
        refits: [
          {
            id: 'petrel-winter',
            name: 'Winter refit',
            release: '2026-11-30T07:00:00Z',
            promised: '2026-12-18T16:00:00Z',
            parts: [
              {
                id: 'hatch',
                name: 'Fore hatch',
                space: 'bay',
                areaM2: 2,
                jobs: [{ id: 'hatch-panel', procedure: 'panel' }],
              },
            ],
          },
        ],
      },
    ],
  };
}

type Milestone = NonNullable<NonNullable<YardInput['materials']>[number]['milestones']>[number];
type Step = NonNullable<YardInput['procedures']>[number]['steps'][number];

/** Reached after so many minutes at 10 °C and at 25 °C, exactly: what is invented has no spread. */
function milestone(name: Milestone['milestone'], at10: number, at25: number): Milestone {
  const rows = [
    { celsius: 10, minutes: at10 },
    { celsius: 25, minutes: at25 },
  ];
  return { milestone: name, rows, source: 'invented', spread: 1 };
}

function step(
  id: string,
  skill: string,
  effort: Step['effort'],
  air: Step['air'],
  material: string | null,
): Step {
  return {
    id,
    name: id,
    effort,
    skill,
    crewMin: 1,
    crewMax: 2,
    air,
    material,
    splittable: air === 'dusty',
  };
}
