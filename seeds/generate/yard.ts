import { random } from '#kernel/random.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema, type Yard, type YardInput } from '#planning/yard/yard.ts';
import { fabrics } from '../fabrics.ts';
import { exactMaterials } from '../materials.ts';
import { inventedOutdoor } from '../outdoor.ts';
import { procedures, skills } from '../procedures.ts';
import type { ProcedureInput } from '../procedures/step.ts';
import { partsFor, procedureFor, type Berth } from './parts.ts';
import { builders } from './people.ts';
import { spacesFor } from './spaces.ts';

export interface YardSettings {
  /** At most so many tasks, those of all branches counted, and a few less at the least. */
  readonly tasks: number;
  /** 1 to 10. */
  readonly boats: number;
  /** Few hands and near promises, or many and far ones. */
  readonly tightness: 'loose' | 'tight';
  readonly season: 'warm' | 'cold';
  readonly seed: number;
}

/** A Monday of midsummer or of early winter, UTC. */
const begins = { warm: '2026-07-06T06:00:00Z', cold: '2026-11-30T06:00:00Z' };

const DAY = 86_400_000;
/** What a builder does in a week of the calendar, a day of it: minutes, breaks and days off taken away. */
const MINUTES_A_DAY = 280;

const plus = (iso: string, days: number, hour = 0): string =>
  new Date(Date.parse(iso) + days * DAY + hour * 3_600_000).toISOString().replace('.000Z', 'Z');

const whole = (value: number): number => Math.round(value);

/** Each boat has a sheet of its own in the companionway, and the procedure that hangs it. */
function sheeted(berths: readonly Berth[]): {
  procedures: ProcedureInput[];
  barriers: NonNullable<YardInput['barriers']>;
} {
  const own = (procedure: ProcedureInput, { boat }: Berth): ProcedureInput => ({
    ...procedure,
    id: procedureFor(procedure.id, boat),
    steps: procedure.steps.map((step) =>
      step.barrier === null || step.barrier === undefined
        ? step
        : { ...step, barrier: { ...step.barrier, barrier: `sheet-${boat}` } },
    ),
  });
  return {
    procedures: procedures.flatMap((procedure) =>
      procedure.id === 'overhead-laminate'
        ? berths.map((berth) => own(procedure, berth))
        : [procedure],
    ),
    barriers: berths.map(({ boat, inside }) => ({
      id: `sheet-${boat}`,
      name: `Sheet in the companionway of ${boat}`,
      blocks: [{ from: 'shed', to: inside }],
    })),
  };
}

const weekdays = [1, 2, 3, 4, 5];

/** Surveyor on every weekday; crane on Tuesdays and Fridays, or daily so that hands decide, not the crane. */
function slotLists(
  from: string,
  days: number,
  daily: boolean,
): NonNullable<YardInput['slotLists']> {
  const list = (
    id: 'crane' | 'surveyor',
    name: string,
    on: readonly number[],
    hours: readonly [number, number],
    price: number,
  ): NonNullable<YardInput['slotLists']>[number] => ({
    id,
    name,
    kind: id,
    slots: Array.from({ length: days }, (_, day) => day)
      // Both beginnings are Mondays.
      .filter((day) => on.includes((day % 7) + 1))
      .map((day) => ({ from: plus(from, day, hours[0]), to: plus(from, day, hours[1]), price })),
  });
  return [
    list('crane', 'Crane', daily ? weekdays : [2, 5], daily ? [1, 9] : [2, 7], 45_000),
    list('surveyor', 'Surveyor', weekdays, [3, 5], 12_000),
  ];
}

function draft(settings: YardSettings, horizonDays: number, promisedDays: number): Yard {
  const { tasks, boats, tightness, season, seed } = settings;
  const draw = random(seed);
  const from = begins[season];
  const tight = tightness === 'tight';
  const hands = tight
    ? Math.max(2, whole(Math.sqrt(tasks) * 0.35))
    : whole(2 + Math.sqrt(tasks) * 0.8);
  const benches = Array.from(
    { length: 1 + Math.ceil(boats / 2) },
    (_, k) => `bench-${String(k + 1)}`,
  );
  const berths = Array.from({ length: boats }, (_, k): Berth => ({
    boat: `boat-${String(k + 1)}`,
    inside: `boat-${String(k + 1)}-inside`,
    bench: benches[k % benches.length],
  }));
  const parts = partsFor(berths, tasks, plus(from, 2), tight ? 1.5 : 1, draw);
  const tools = (id: string, name: string, share: number) => ({
    id,
    name,
    count: Math.max(1, whole(hands * share * (tightness === 'tight' ? 1 : 1.5))),
  });
  return yardSchema.parse({
    format: 'curewright-yard',
    version: 1,
    id: `made-${String(tasks)}-${String(boats)}-${tightness}-${season}-${String(seed)}`,
    name: `Made-up yard ${String(seed)}`,
    timeZone: 'Etc/UTC',
    planFrom: from,
    horizonDays,
    outdoor: inventedOutdoor(plus(from, -7), 24 * (horizonDays + 9), season === 'warm' ? 18 : 7),
    skills,
    people: builders(hands, draw),
    spaces: spacesFor(berths, benches, season),
    tools: [
      tools('extractor', 'Dust extractor', 0.5),
      tools('spray-gun', 'Spray gun', 0.2),
      tools('clamp-set', 'Clamps and shores', 0.8),
      tools('laminating-table', 'Laminating table', 0.4),
    ],
    stocks: [{ id: 'gel-coat', name: 'Gel coat', unit: 'kg', total: tasks }],
    ...sheeted(berths),
    slotLists: slotLists(from, horizonDays, tight),
    materials: [...exactMaterials],
    fabrics: [...fabrics],
    boats: berths.map(({ boat }, k) => ({
      id: boat,
      name: `Boat ${String(k + 1)}`,
      owner: 'builder-1',
      refits: [
        {
          id: `${boat}-refit`,
          name: `Refit of boat ${String(k + 1)}`,
          release: from,
          promised: plus(from, promisedDays + (k % 3) * 2, 10),
          weight: 1 + draw.below(3),
          parts: parts[k],
        },
      ],
    })),
  } satisfies YardInput);
}

/**
 * A yard of about so many tasks, as a seed gives it: sizes, people and weights are drawn, what is
 * done to parts are the demo's procedures. The plan may run for four times as long as the
 * builders' minutes ask for, and three weeks more. Everybody and everything in it is invented.
 */
export function generateYard(settings: YardSettings): Yard {
  const first = draft(settings, 21, 14);
  const work = makeWorkload(first).tasks.reduce((sum, { workMinutes }) => sum + workMinutes, 0);
  const days = work / (first.people.length * MINUTES_A_DAY);
  const promised = whole(settings.tightness === 'tight' ? 9 + days : 16 + 2 * days);
  return draft(settings, Math.min(366, whole(21 + 4 * days)), promised);
}
