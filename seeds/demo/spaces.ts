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

/** Vapour of people and washing on top of the outdoors'. */
const lived: SpaceInput['humidity'] = { kind: 'outdoors', addsHPa: 0.5 };

/** A hull's skin has the weather, or the shed's air, on its other side. */
const hullSkin: SpaceInput['skin'] = { outdoorShare: 0.3, lagHours: 1 };

/** Two benches that share their air, a spray room, the boat shed, and the insides of two hulls. */
export const spaces: readonly SpaceInput[] = [
  {
    id: 'bench-north',
    name: 'North bench',
    climate: heated(19, 15),
    bandC: 1,
    humidity: lived,
    room: 2,
    dustReaches: ['bench-north', 'bench-south'],
    settlingMinutes: 30,
  },
  {
    id: 'bench-south',
    name: 'South bench',
    climate: heated(19, 15),
    bandC: 1,
    humidity: lived,
    room: 2,
    dustReaches: ['bench-south', 'bench-north'],
    settlingMinutes: 30,
  },
  {
    id: 'spray-room',
    name: 'Spray room',
    climate: heated(22, 18),
    bandC: 0.5,
    humidity: { kind: 'held', percent: 55 },
    room: 2,
    dustReaches: ['spray-room'],
    settlingMinutes: 20,
  },
  {
    id: 'shed',
    name: 'Boat shed',
    climate: heated(17, 13),
    bandC: 1.5,
    humidity: lived,
    room: 4,
    // A visit of the insurer's people on the staging.
    taken: [{ from: '2026-12-09T13:00:00+01:00', to: '2026-12-09T15:00:00+01:00', count: 2 }],
    // In at the open companionway, until a sheet hangs in it.
    dustReaches: ['shed', 'kornog-inside'],
    settlingMinutes: 45,
  },
  {
    id: 'kornog-inside',
    name: 'Inside Kornog',
    climate: { kind: 'outdoors', lagHours: 4, warmerBy: 3.5 },
    bandC: 1.5,
    humidity: lived,
    skin: hullSkin,
    changes: [
      {
        id: 'kornog-heater',
        name: 'Fan heater in Kornog',
        kind: 'heater',
        from: '2026-12-02T07:00:00+01:00',
        to: '2026-12-19T18:00:00+01:00',
        celsius: 14,
        watts: 2000,
        costPerDay: 600,
      },
      {
        id: 'kornog-dehumidifier',
        name: 'Dehumidifier in Kornog',
        kind: 'dehumidifier',
        from: '2026-11-30T07:00:00+01:00',
        to: '2026-12-19T18:00:00+01:00',
        percent: 60,
        watts: 400,
        costPerDay: 250,
      },
    ],
    enclosed: true,
    room: 3,
    dustReaches: ['kornog-inside'],
    settlingMinutes: 60,
  },
  {
    id: 'tangon-inside',
    name: 'Inside Tangon, with a heater',
    climate: heated(18, 13),
    bandC: 1.5,
    humidity: lived,
    skin: hullSkin,
    enclosed: true,
    room: 2,
    dustReaches: ['tangon-inside'],
    settlingMinutes: 60,
  },
];
