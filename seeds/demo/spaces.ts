import type { YardInput } from '#planning/yard/yard.ts';

type SpaceInput = NonNullable<YardInput['spaces']>[number];

const every = [1, 2, 3, 4, 5, 6, 7];

/** Warm by day, cooler from the evening on. */
const heated = (day: number, night: number): SpaceInput['climate'] => ({
  kind: 'heated',
  setPoints: [
    { weekdays: every, from: '06:00', celsius: day },
    { weekdays: every, from: '19:00', celsius: night },
  ],
});

/** Two benches that share their air, a spray room, the boat shed, and the insides of two hulls. */
export const spaces: readonly SpaceInput[] = [
  {
    id: 'bench-north',
    name: 'North bench',
    climate: heated(19, 15),
    room: 2,
    dustReaches: ['bench-north', 'bench-south'],
    settlingMinutes: 30,
  },
  {
    id: 'bench-south',
    name: 'South bench',
    climate: heated(19, 15),
    room: 2,
    dustReaches: ['bench-south', 'bench-north'],
    settlingMinutes: 30,
  },
  {
    id: 'spray-room',
    name: 'Spray room',
    climate: heated(22, 18),
    room: 2,
    dustReaches: ['spray-room'],
    settlingMinutes: 20,
  },
  {
    id: 'shed',
    name: 'Boat shed',
    climate: heated(16, 11),
    room: 4,
    // A visit of the insurer's people on the staging.
    taken: [{ from: '2026-12-09T13:00:00+01:00', to: '2026-12-09T15:00:00+01:00', count: 2 }],
    // In at the open companionway, until a sheet hangs in it.
    dustReaches: ['shed', 'kornog-inside'],
    settlingMinutes: 45,
  },
  {
    id: 'kornog-inside',
    name: 'Inside Kornog, unheated',
    climate: { kind: 'outdoors', lagHours: 4, warmerBy: 3.5 },
    room: 3,
    dustReaches: ['kornog-inside'],
    settlingMinutes: 60,
  },
  {
    id: 'tangon-inside',
    name: 'Inside Tangon, with a heater',
    climate: heated(18, 13),
    room: 2,
    dustReaches: ['tangon-inside'],
    settlingMinutes: 60,
  },
];
