import type { Random } from '#kernel/random.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { skills } from '../procedures.ts';

export type PersonInput = NonNullable<YardInput['people']>[number];

const hours = [
  ['07:00', '15:30', '11:30'],
  ['07:30', '16:00', '12:00'],
  ['08:00', '16:30', '12:00'],
] as const;

const FEW = 4;

const half = (time: string): string => `${time.slice(0, 3)}${time.endsWith('00') ? '30' : '59'}`;

function personOf(index: number, count: number, random: Random): PersonInput {
  const skill = (step: number): string => skills[(index + step) % skills.length].id;
  const [from, to, noon] = hours[random.below(hours.length)];
  const off = random.below(10);
  // Every fifth learns a third trade; the others know it well enough.
  const third = index % 5 === 4 ? 1 : 2;
  const hourlyCost = 2600 + 100 * random.below(12);
  return {
    id: `builder-${String(index + 1)}`,
    name: `Builder ${String(index + 1)}`,
    roles: index === 0 ? ['foreman', 'builder', 'owner'] : ['builder'],
    abilities: [
      { skill: skill(0), level: 3, speed: 100 + 5 * random.below(4) },
      { skill: skill(1), level: 2, speed: 90 + 5 * random.below(3) },
      { skill: skill(3), level: third, speed: 70 + 5 * random.below(5) },
      ...(count < FEW ? [{ skill: skill(2), level: 2, speed: 70 }] : []),
    ],
    shifts: [1, 2, 3, 4, 5]
      .filter((weekday) => weekday !== off)
      .map((weekday) => ({ weekday, from, to, breaks: [{ from: noon, to: half(noon) }] })),
    hourlyCost,
    overtime: index % 3 === 0 ? [{ weekday: 2, from: to, to: '18:00' }] : [],
    overtimeHourlyExtra: Math.round(hourlyCost / 3),
  };
}

/**
 * So many builders; each skill is that of three in four of them, and one in five learns one. Where
 * there are few, everybody does everything.
 */
export const builders = (count: number, random: Random): PersonInput[] =>
  Array.from({ length: count }, (_, index) => personOf(index, count, random));
