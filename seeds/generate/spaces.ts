import type { YardInput } from '#planning/yard/yard.ts';
import type { Berth } from './parts.ts';

type SpaceInput = NonNullable<YardInput['spaces']>[number];

const every = [1, 2, 3, 4, 5, 6, 7];

const heated = (day: number, night: number): SpaceInput['climate'] => ({
  kind: 'heated',
  setPoints: [
    { weekdays: every, from: '06:00', celsius: day },
    { weekdays: every, from: '19:00', celsius: night },
  ],
});

/** Benches, a spray room, the shed, and a hull for each boat, unheated but a little warmer than out. */
export function spacesFor(
  berths: readonly Berth[],
  benches: readonly string[],
  season: 'warm' | 'cold',
): SpaceInput[] {
  const [day, night] = season === 'warm' ? [21, 18] : [18, 13];
  const room = Math.max(3, Math.ceil(berths.length * 1.5));
  const spaces: SpaceInput[] = [
    ...benches.map((id, k): SpaceInput => ({
      id,
      name: `Bench ${String(k + 1)}`,
      climate: heated(day, night),
      room: 3,
      dustReaches: [id],
      settlingMinutes: 30,
    })),
    {
      id: 'spray-room',
      name: 'Spray room',
      climate: heated(22, 18),
      room: 3,
      dustReaches: ['spray-room'],
      settlingMinutes: 20,
    },
    {
      id: 'shed',
      name: 'Boat shed',
      climate: heated(day - 2, night - 2),
      room,
      dustReaches: ['shed', ...berths.map(({ inside }) => inside)],
      settlingMinutes: 45,
    },
    ...berths.map(({ boat, inside }): SpaceInput => ({
      id: inside,
      name: `Inside ${boat}`,
      climate: { kind: 'outdoors', lagHours: 4, warmerBy: 4 },
      room: 3,
      dustReaches: [inside],
      settlingMinutes: 60,
    })),
  ];
  // Forecasts taken to be exact, as the sheets are.
  return spaces.map((space) => ({ ...space, bandC: 0 }));
}
