import { yardSchema, type Yard } from '#planning/yard/yard.ts';

/** A yard with one or two of everything, and ids as short as can be. */
export const smallYard = (id: string): Yard =>
  yardSchema.parse({
    format: 'curewright-yard',
    version: 1,
    id,
    name: 'Small yard',
    timeZone: 'Europe/London',
    planFrom: '2027-01-04T08:00:00Z',
    outdoor: { from: '2027-01-04T00:00:00Z', celsius: [4, 3.5, 5], source: 'invented' },
    skills: [
      { id: 'laminate', name: 'Laminating' },
      { id: 'sand', name: 'Sanding' },
    ],
    people: [
      {
        id: 'ann',
        name: 'Ann',
        email: 'Ann@Example.org',
        roles: ['foreman', 'builder'],
        abilities: [{ skill: 'laminate', level: 3 }],
        shifts: [
          { weekday: 1, from: '08:00', to: '16:00', breaks: [{ from: '12:00', to: '12:30' }] },
          { weekday: 7, from: '22:00', to: '02:00' },
        ],
        exceptions: [
          { date: '2027-01-06', reason: 'dentist' },
          { date: '2027-01-07', shifts: [{ from: '10:00', to: '14:00' }] },
        ],
      },
      { id: 'ben', name: 'Ben', roles: ['owner'] },
    ],
    spaces: [
      {
        id: 'hull',
        name: 'Hull',
        climate: { kind: 'outdoors', lagHours: 6 },
        room: 2,
        dustReaches: ['hull', 'bench'],
        settlingMinutes: 30,
      },
      {
        id: 'bench',
        name: 'Bench',
        climate: {
          kind: 'heated',
          setPoints: [{ weekdays: [1, 2, 3], from: '06:00', celsius: 18 }],
        },
        room: 1,
        workPercent: 130,
        dustReaches: [],
        settlingMinutes: 0,
      },
    ],
    tools: [{ id: 'sander', name: 'Sander', count: 1 }],
    materials: [
      {
        id: 'resin',
        name: 'Resin',
        resinSystem: 'epoxy',
        minimumC: 10,
        maximumC: 30,
        belowMinimum: 'stalls',
        milestones: [
          {
            milestone: 'sandable',
            rows: [
              { celsius: 10, minutes: 900.5 },
              { celsius: 20, minutes: 480 },
            ],
            source: 'invented',
          },
        ],
        cautions: ['gloves'],
      },
    ],
    procedures: [
      {
        id: 'patch',
        version: 1,
        name: 'Patch',
        steps: [
          {
            id: 'wet',
            name: 'Wet out',
            effort: { fixed: 20, perM2: 30, source: 'invented' },
            skill: 'laminate',
            crewMin: 1,
            crewMax: 2,
            air: 'wet',
            material: 'resin',
            splittable: false,
          },
          {
            id: 'sand',
            name: 'Sand',
            effort: { fixed: 10, source: 'invented' },
            skill: 'sand',
            crewMin: 1,
            crewMax: 1,
            air: 'dusty',
            splittable: true,
            tools: [{ tool: 'sander' }],
          },
          {
            id: 'wipe',
            name: 'Wipe',
            effort: { fixed: 5, source: 'invented' },
            skill: 'sand',
            crewMin: 1,
            crewMax: 1,
            air: 'clean',
            splittable: false,
          },
        ],
        links: [
          {
            id: 'cure',
            from: 'wet',
            to: 'sand',
            opens: { kind: 'milestone', milestone: 'sandable' },
            closes: { kind: 'after', minutes: 5000 },
          },
          { id: 'then', from: 'sand', to: 'wipe', opens: { kind: 'after', minutes: 0 } },
        ],
        choices: [
          {
            id: 'finish',
            name: 'Finish',
            branches: [
              { id: 'plain', name: 'Plain', steps: [], links: [] },
              { id: 'wiped', name: 'Wiped', steps: ['wipe'], links: ['then'] },
            ],
          },
        ],
      },
    ],
    boats: [
      {
        id: 'heron',
        name: 'Heron',
        owner: 'ben',
        refits: [
          {
            id: 'heron-27',
            name: 'Winter 2027',
            release: '2027-01-04T08:00:00Z',
            promised: '2027-01-29T16:00:00Z',
            weight: 2,
            parts: [
              {
                id: 'deck',
                name: 'Deck',
                space: 'hull',
                areaM2: 1.25,
                jobs: [
                  { id: 'first', procedure: 'patch' },
                  { id: 'second', procedure: 'patch', after: ['first'] },
                ],
              },
            ],
          },
        ],
      },
    ],
  });
