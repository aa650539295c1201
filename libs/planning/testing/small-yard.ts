import { jobSchema, type Job } from '../yard/boats.ts';
import type { MaterialCureTable, Milestone } from '../yard/materials.ts';
import type { Effort, Step } from '../yard/procedures.ts';
import type { Climate } from '../yard/spaces.ts';
import { yardSchema, type Yard, type YardInput } from '../yard/yard.ts';

/** Minutes at 10, 20 and 30 degrees, exactly. */
const line = (milestone: Milestone, ...minutes: [number, number, number]): MaterialCureTable => ({
  milestone,
  rows: [10, 20, 30].map((celsius, k) => ({ celsius, minutes: minutes[k] })),
  conversion: null,
  source: 'made up for tests',
  trust: 'sheet',
  spread: 1,
});

const effort = (fixed: number, perM2: number): Effort => ({
  fixed,
  perM2,
  perEdgeM: 0,
  perJointM: 0,
  source: 'made up for tests',
});

type StepInput = NonNullable<YardInput['procedures']>[number]['steps'][number];

const step = (
  id: string,
  name: string,
  fixed: number,
  perM2: number,
  rest: Partial<Step>,
): StepInput => ({
  id,
  name,
  effort: effort(fixed, perM2),
  skill: 'sanding',
  minLevel: 1,
  crewMin: 1,
  crewMax: 1,
  floorMinutes: 0,
  air: 'dusty',
  material: null,
  space: null,
  tools: [],
  splittable: true,
  breaks: 'observed',
  ...rest,
});

/** Always so warm. */
export const heatedTo = (celsius: number): Climate => ({
  kind: 'heated',
  setPoints: [{ weekdays: [1], from: '00:00', celsius }],
  lagHours: 0,
});

/** The procedure `two-coats` on a part, after other jobs. */
export const jobOf = (id: string, after: string[] = [], procedure = 'two-coats'): Job =>
  jobSchema.parse({ id, procedure, after });

const coat = {
  skill: 'coating',
  air: 'wet',
  material: 'resin',
  splittable: false,
  breaks: 'relieved',
} as const;

/**
 * A yard of one builder, one warm space of 20 degrees, one part of 2 m2 and one job: sand,
 * coat one, coat two in the bond window or after abrading. Round numbers, known exactly (spread 1,
 * no band about the temperature), Mondays to Fridays 08:00 to 16:00 without a break, UTC, from
 * Monday 2 November 2026 on.
 */
export function smallYard(change: (draft: Yard) => void = () => undefined): Yard {
  const yard = yardSchema.parse({
    format: 'curewright-yard',
    version: 1,
    id: 'small',
    name: 'Small yard',
    timeZone: 'Etc/UTC',
    planFrom: '2026-11-02T08:00:00Z',
    horizonDays: 14,
    outdoor: null,
    skills: [
      { id: 'coating', name: 'Coating' },
      { id: 'sanding', name: 'Sanding' },
    ],
    people: [
      {
        id: 'ada',
        name: 'Ada',
        email: null,
        roles: ['foreman', 'builder'],
        abilities: [
          { skill: 'coating', level: 2, speed: 100 },
          { skill: 'sanding', level: 2, speed: 100 },
        ],
        shifts: [1, 2, 3, 4, 5].map((weekday) => ({
          weekday,
          from: '08:00',
          to: '16:00',
          breaks: [],
        })),
        exceptions: [],
      },
    ],
    spaces: [
      {
        id: 'shop',
        name: 'Shop',
        climate: heatedTo(20),
        bandC: 0,
        room: 2,
        dustReaches: ['shop'],
        settlingMinutes: 30,
      },
    ],
    tools: [{ id: 'sander', name: 'Sander', count: 1 }],
    materials: [
      {
        id: 'resin',
        name: 'Resin',
        resinSystem: 'epoxy',
        use: 'laminating',
        surface: 'sealed',
        waxed: false,
        blushes: false,
        minimumC: 5,
        maximumC: 35,
        belowMinimum: 'stalls',
        milestones: [
          line('pot-life', 60, 30, 15),
          line('bond-opens', 240, 120, 60),
          line('bond-closes', 720, 360, 180),
          line('tack-free', 600, 300, 150),
          line('dust-safe', 480, 240, 120),
          line('sandable', 1920, 960, 480),
        ],
        cautions: [],
      },
    ],
    procedures: [
      {
        id: 'two-coats',
        version: 1,
        name: 'Two coats',
        steps: [
          step('sand', 'Sand', 10, 20, {}),
          step('one', 'Coat one', 30, 15, coat),
          step('key', 'Abrade', 10, 10, {}),
          step('two', 'Coat two', 30, 15, coat),
        ],
        links: [
          {
            id: 'sand-one',
            from: 'sand',
            to: 'one',
            opens: { kind: 'after', minutes: 0 },
            closes: null,
            sweep: 'unknown',
          },
          {
            id: 'bond',
            from: 'one',
            to: 'two',
            opens: { kind: 'milestone', milestone: 'bond-opens' },
            closes: { kind: 'milestone', milestone: 'bond-closes' },
            sweep: 'unknown',
          },
          {
            id: 'hard',
            from: 'one',
            to: 'key',
            opens: { kind: 'milestone', milestone: 'sandable' },
            closes: null,
            sweep: 'unknown',
          },
          {
            id: 'keyed',
            from: 'key',
            to: 'two',
            opens: { kind: 'after', minutes: 0 },
            closes: { kind: 'after', minutes: 480 },
            sweep: 'unknown',
          },
        ],
        choices: [
          {
            id: 'next',
            name: 'Bond or prepare',
            branches: [
              { id: 'bond', name: 'in the window', steps: [], links: ['bond'] },
              { id: 'prepare', name: 'abraded', steps: ['key'], links: [] },
            ],
          },
        ],
      },
    ],
    boats: [
      {
        id: 'gull',
        name: 'Gull',
        owner: 'ada',
        refits: [
          {
            id: 'gull-refit',
            name: 'Gull refit',
            release: '2026-11-02T08:00:00Z',
            promised: '2026-11-06T16:00:00Z',
            weight: 1,
            parts: [
              {
                id: 'lid',
                name: 'Lid',
                space: 'shop',
                areaM2: 2,
                edgeM: 0,
                jointM: 0,
                jobs: [{ id: 'lid', procedure: 'two-coats', after: [] }],
              },
            ],
          },
        ],
      },
    ],
  } satisfies YardInput);
  change(yard);
  return yard;
}
