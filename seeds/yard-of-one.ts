import type { YardInput } from '#planning/yard/yard.ts';
import { fabrics } from './fabrics.ts';
import { materials } from './materials.ts';
import { inventedOutdoor } from './outdoor.ts';
import { coredPanel } from './procedures/panels.ts';
import { delaminatedPatch } from './procedures/laminates.ts';
import { fairAndSand, gelCoatBuild, hatchNonSkid } from './procedures/finishes.ts';
import { bothFaces, ownWipe } from './procedures/prepared.ts';
import type { ProcedureInput } from './procedures/step.ts';
import { skills } from './procedures.ts';

/**
 * The same procedures for a pair of hands: what takes two (turning a panel) is done alone with a
 * jig, and a lid is so small that its finish coat is one cup, without a lap.
 */
const alone = (procedure: ProcedureInput): ProcedureInput => ({
  ...procedure,
  steps: procedure.steps.map((step) =>
    step.skill === null
      ? step
      : { ...step, crewMin: 1, crewMax: 1, oneBatch: step.id === 'finish-coat' },
  ),
});

const gelCoated = [
  { base: 'polyester', surface: 'sealed', mm: 6 },
  { base: 'polyester', surface: 'sealed', mm: 0.5 },
] as const;

const evening = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '18:00', to: '22:00' }));
const weekend = [6, 7].map((weekday) => ({
  weekday,
  from: '09:00',
  to: '18:00',
  breaks: [{ from: '12:30', to: '13:15' }],
}));

/** One person is foreman, builder and owner: one boat, five parts, evenings and weekends. Invented. */
export const yardOfOne: YardInput = {
  format: 'curewright-yard',
  version: 1,
  id: 'yard-of-one',
  name: 'Own shed (yard of one)',
  timeZone: 'Europe/London',
  planFrom: '2026-11-30T18:00:00Z',
  horizonDays: 28,
  outdoor: inventedOutdoor('2026-11-23T00:00:00Z', 24 * 38),
  skills,
  people: [
    {
      id: 'perrin',
      name: 'Perrin Holloway',
      email: 'perrin@demo.invalid',
      roles: ['foreman', 'builder', 'owner'],
      abilities: skills.map(({ id }) => ({ skill: id, level: 2 })),
      shifts: [...evening, ...weekend],
    },
  ],
  spaces: [
    {
      id: 'garage',
      name: 'Garage bench',
      climate: {
        kind: 'heated',
        setPoints: [
          { weekdays: [1, 2, 3, 4, 5], from: '17:30', celsius: 20 },
          { weekdays: [6, 7], from: '08:00', celsius: 20 },
          { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '23:00', celsius: 17 },
        ],
      },
      bandC: 1,
      humidity: { kind: 'held', percent: 60 },
      room: 2,
      dustReaches: ['garage'],
      settlingMinutes: 30,
    },
    {
      id: 'under-cover',
      name: 'Boat under its cover',
      climate: { kind: 'outdoors', lagHours: 3, warmerBy: 3 },
      bandC: 2,
      humidity: { kind: 'outdoors', addsHPa: 0 },
      skin: { outdoorShare: 0.2, lagHours: 0.5 },
      changes: [
        {
          id: 'wren-tent',
          name: 'Tent with a small heater over the coaming',
          kind: 'tent',
          from: '2026-12-02T18:00:00Z',
          to: '2026-12-20T18:00:00Z',
          lagHours: 6,
          warmerBy: 8,
          watts: 1000,
          costPerDay: 300,
        },
      ],
      room: 2,
      dustReaches: ['under-cover'],
      settlingMinutes: 30,
    },
  ],
  tools: [
    { id: 'extractor', name: 'Dust extractor', count: 1 },
    { id: 'spray-gun', name: 'Gel-coat spray gun', count: 1 },
    { id: 'laminating-table', name: 'Laminating table', count: 1 },
  ],
  stocks: [{ id: 'gel-coat', name: 'Gel coat in the store', unit: 'kg', total: 4 }],
  materials: [...materials],
  fabrics: [...fabrics],
  procedures: [coredPanel, delaminatedPatch, fairAndSand, gelCoatBuild, hatchNonSkid].map((one) =>
    alone(ownWipe(bothFaces(one))),
  ),
  boats: [
    {
      id: 'wren',
      name: 'Wren',
      owner: 'perrin',
      refits: [
        {
          id: 'wren-winter',
          name: 'Wren, winter list',
          release: '2026-11-30T18:00:00Z',
          promised: '2026-12-12T17:00:00Z',
          weight: 1,
          parts: [
            {
              id: 'wren-locker-lid',
              name: 'Locker lid',
              space: 'garage',
              areaM2: 0.7,
              edgeM: 3.4,
              layers: [{ base: 'foam', mm: 15 }],
              jobs: [{ id: 'wren-locker-lid', procedure: 'cored-panel' }],
            },
            {
              id: 'wren-hatch',
              name: 'Fore hatch',
              space: 'garage',
              areaM2: 0.4,
              edgeM: 2.4,
              layers: [...gelCoated],
              jobs: [{ id: 'wren-hatch', procedure: 'hatch-non-skid' }],
            },
            {
              id: 'wren-rudder',
              name: 'Rudder',
              space: 'garage',
              areaM2: 0.8,
              layers: [...gelCoated],
              jobs: [{ id: 'wren-rudder', procedure: 'fair-and-sand' }],
            },
            {
              id: 'wren-tiller-lid',
              name: 'Cockpit lid',
              space: 'garage',
              areaM2: 0.6,
              layers: [...gelCoated],
              jobs: [
                {
                  id: 'wren-tiller-lid',
                  procedure: 'gel-coat-build',
                  words: [{ step: 'colour', expected: '2026-12-01T18:00:00Z' }],
                },
              ],
            },
            {
              id: 'wren-coaming',
              name: 'Coaming',
              space: 'under-cover',
              areaM2: 0.4,
              edgeM: 2.2,
              layers: [...gelCoated],
              jobs: [{ id: 'wren-coaming', procedure: 'delaminated-patch' }],
            },
          ],
        },
      ],
    },
  ],
};
