import { yardSchema, type Yard, type YardInput } from '#planning/yard/yard.ts';
import { smallYard } from './small-yard.ts';

/** The small yard with everything in it that a yard file can say, and nothing left at its default. */
export function wholeYard(id: string): Yard {
  const small: YardInput = smallYard(id);
  const [ann, ben] = small.people ?? [];
  const [hull, bench] = small.spaces ?? [];
  const [heron] = small.boats ?? [];
  const [winter] = heron.refits ?? [];
  const [deck] = winter.parts ?? [];
  return yardSchema.parse({
    ...small,
    horizonDays: 45,
    currency: 'GBP',
    moneyTolerance: 2500,
    people: [
      {
        ...ann,
        abilities: [
          { skill: 'laminate', level: 3, speed: 110 },
          { skill: 'sand', level: 2 },
        ],
        exceptions: [
          {
            date: '2027-01-06',
            reason: 'dentist',
            shifts: [{ from: '10:00', to: '16:00', breaks: [{ from: '12:00', to: '12:30' }] }],
          },
        ],
        hourlyCost: 3250,
        overtime: [{ weekday: 1, from: '16:00', to: '18:30' }],
        overtimeHourlyExtra: 1600,
      },
      ben,
    ],
    spaces: [
      {
        ...hull,
        climate: { kind: 'outdoors', lagHours: 6, warmerBy: 1.5 },
        taken: [{ from: '2027-01-05T08:00:00Z', to: '2027-01-05T12:00:00Z', count: 1 }],
        hours: [{ weekday: 1, from: '07:00', to: '19:00' }],
      },
      bench,
    ],
    tools: [
      {
        id: 'sander',
        name: 'Sander',
        count: 2,
        away: [{ from: '2027-01-06T08:00:00+01:00', to: '2027-01-07T08:00:00Z', count: 1 }],
        hours: [{ weekday: 2, from: '08:00', to: '17:00' }],
      },
      { id: 'clamp', name: 'Clamp', count: 4 },
    ],
    stocks: [{ id: 'cloth', name: 'Cloth', unit: 'm2', total: 12.5 }],
    barriers: [
      { id: 'curtain', name: 'Curtain', closed: true, blocks: [{ from: 'hull', to: 'bench' }] },
    ],
    slotLists: [
      {
        id: 'crane',
        name: 'Crane',
        kind: 'crane',
        slots: [
          {
            from: '2027-01-08T09:00:00+01:00',
            to: '2027-01-08T10:00:00Z',
            price: 18000,
            noticeHours: 24,
            booked: true,
          },
        ],
      },
    ],
    deliveries: [{ id: 'teak', name: 'Teak', expected: '2027-01-05T07:30:00Z' }],
    procedures: [
      ...(small.procedures ?? []),
      {
        id: 'bond',
        version: 1,
        name: 'Bond in',
        steps: [
          {
            id: 'carry',
            name: 'Carry over',
            effort: { fixed: 12, source: 'invented' },
            skill: 'sand',
            minLevel: 2,
            crewMin: 1,
            crewMax: 1,
            floorMinutes: 5,
            air: 'clean',
            splittable: false,
            breaks: 'relieved',
            move: { kind: 'destination' },
            slots: 'crane',
            price: 900,
          },
          {
            id: 'shelve',
            name: 'Put by',
            effort: { fixed: 4, source: 'invented' },
            skill: 'sand',
            crewMin: 1,
            crewMax: 1,
            air: 'clean',
            splittable: false,
            move: { kind: 'space', space: 'bench' },
          },
          {
            id: 'screen',
            name: 'Draw the curtain',
            effort: { fixed: 3, source: 'invented' },
            skill: 'sand',
            crewMin: 1,
            crewMax: 1,
            air: 'clean',
            space: 'hull',
            splittable: false,
            onPart: false,
            barrier: { barrier: 'curtain', closes: true },
          },
          {
            id: 'bed',
            name: 'Bed',
            effort: { fixed: 2, perM2: 20, perEdgeM: 4, perJointM: 3, source: 'invented' },
            skill: 'laminate',
            crewMin: 1,
            crewMax: 1,
            air: 'wet',
            material: 'resin',
            splittable: false,
            tools: [{ tool: 'sander', count: 2 }],
            cleanDownMinutes: 15,
            joins: true,
            holds: [
              {
                id: 'press',
                tool: 'clamp',
                count: 2,
                until: [
                  { kind: 'milestone', milestone: 'handle' },
                  { kind: 'after', minutes: 30 },
                  { kind: 'step', step: 'look', anchor: 'finish' },
                ],
              },
            ],
            consumes: [{ stock: 'cloth', fixed: 0.25, perM2: 1.1, perEdgeM: 0.1, perJointM: 0.2 }],
            sensitiveUntil: { kind: 'milestone', milestone: 'dust-safe' },
            coveredBy: ['shelve'],
          },
          {
            id: 'look',
            name: 'Surveyor looks',
            effort: { source: 'nobody works' },
            skill: null,
            crewMin: 0,
            crewMax: 0,
            air: 'clean',
            splittable: false,
          },
        ],
        links: [
          { id: 'set', from: 'bed', to: 'look', opens: null, sweep: 'same' },
          {
            id: 'lie',
            from: 'carry',
            to: 'bed',
            opens: { kind: 'after', minutes: 10 },
            closes: { kind: 'after', minutes: 9000 },
          },
        ],
      },
    ],
    boats: [
      {
        ...heron,
        refits: [
          {
            ...winter,
            handovers: ['2027-01-29T09:00:00Z', '2027-02-05T09:00:00Z'],
            parts: [
              { ...deck, edgeM: 7.5, jointM: 2 },
              {
                id: 'beam',
                name: 'Beam',
                space: 'bench',
                areaM2: 0.5,
                jobs: [
                  {
                    id: 'third',
                    procedure: 'bond',
                    destination: 'hull',
                    joins: ['deck'],
                    waitsFor: [
                      { delivery: 'teak', step: 'bed' },
                      { delivery: 'teak', step: null },
                    ],
                    words: [{ step: 'look', expected: '2027-01-12T10:00:00+01:00' }],
                  },
                ],
              },
            ],
          },
        ],
      },
    ],
  });
}
