import type { Random } from '#kernel/random.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { procedures } from '../procedures.ts';

export type BoatInput = NonNullable<YardInput['boats']>[number];
type PartInput = NonNullable<NonNullable<BoatInput['refits']>[number]['parts']>[number];
type JobInput = NonNullable<PartInput['jobs']>[number];

/** Where a boat's parts are. */
export interface Berth {
  readonly boat: string;
  readonly inside: string;
  readonly bench: string;
}

interface Kind {
  readonly name: string;
  /** Procedures in their order, the later after the earlier. */
  readonly jobs: readonly string[];
  readonly area: readonly [least: number, most: number];
  readonly where: 'bench' | 'inside' | 'spray-room' | 'shed';
}

const kinds: readonly Kind[] = [
  {
    name: 'Bulkhead',
    jobs: ['cored-panel', 'bulkhead-tabbed'],
    area: [1.5, 4.5],
    where: 'bench',
  },
  { name: 'Lockers', jobs: ['panels-bonded'], area: [2, 5], where: 'bench' },
  {
    name: 'Patch',
    jobs: ['delaminated-patch', 'fair-and-sand'],
    area: [0.8, 2.2],
    where: 'shed',
  },
  { name: 'Hatch', jobs: ['hatch-non-skid'], area: [0.5, 1.5], where: 'spray-room' },
  { name: 'Overhead', jobs: ['overhead-laminate'], area: [2, 5], where: 'inside' },
  { name: 'Rudder', jobs: ['fair-and-sand'], area: [1, 2.5], where: 'bench' },
  { name: 'Slide', jobs: ['gel-coat-build'], area: [1, 2.5], where: 'spray-room' },
];

/** Steps of a procedure: each becomes a task, whichever branch is taken. */
const stepsOf = (id: string): number =>
  procedures.find((procedure) => procedure.id === id)?.steps.length ?? 0;

const sizeOf = ({ jobs }: Kind): number => jobs.reduce((sum, job) => sum + stepsOf(job), 0);

/** The procedure as the boat has it: its own dust sheet. */
export const procedureFor = (id: string, boat: string): string =>
  id === 'overhead-laminate' ? `${id}-${boat}` : id;

function partOf(
  kind: Kind,
  index: number,
  { boat, inside, bench }: Berth,
  word: string,
  size: number,
  random: Random,
): PartInput {
  const id = `${boat}-${kind.name.toLowerCase()}-${String(index)}`;
  const [least, most] = kind.area;
  const areaM2 = Math.round(size * (least + random.unit() * (most - least)) * 10) / 10;
  const space = { bench, inside, 'spray-room': 'spray-room', shed: 'shed' }[kind.where];
  const around = Math.round(4 * Math.sqrt(areaM2) * 10) / 10;
  const jobs = kind.jobs.map((procedure, k): JobInput => ({
    id: `${id}-${procedure}`,
    procedure: procedureFor(procedure, boat),
    after: k === 0 ? [] : [`${id}-${kind.jobs[k - 1]}`],
    destination: procedure === 'bulkhead-tabbed' ? inside : null,
    joins: procedure === 'bulkhead-tabbed' ? [`${boat}-hull`] : [],
    words: procedure === 'gel-coat-build' ? [{ step: 'colour', expected: word }] : [],
  }));
  return {
    id,
    name: `${kind.name} ${String(index)}`,
    space,
    areaM2,
    edgeM: around,
    jointM: around,
    jobs,
  };
}

/** The hull itself, and its lift when everything else is done. */
function hull({ boat, inside }: Berth, parts: readonly PartInput[], lifted: boolean): PartInput {
  const last = parts.flatMap(({ jobs }) => jobs?.at(-1)?.id ?? []);
  const lift: JobInput = { id: `${boat}-lift`, procedure: 'crane-lift', after: last };
  return {
    id: `${boat}-hull`,
    name: 'Hull',
    space: inside,
    areaM2: 20,
    jobs: lifted ? [lift] : [],
  };
}

/** The most of `left` that one or two more parts can take up, the first being of this kind. */
const filled = (kind: Kind, left: number): number =>
  sizeOf(kind) +
  Math.max(0, ...kinds.map(sizeOf).filter((second) => sizeOf(kind) + second <= left));

/** The next kind in turn that fits; near the end, one that leaves the least over. */
function nextKind(turn: number, left: number): number | null {
  const order = kinds.map((_, k) => (turn + k) % kinds.length);
  const fitting = order.filter((k) => sizeOf(kinds[k]) <= left);
  if (fitting.length === 0) return null;
  if (left > 2 * Math.max(...kinds.map(sizeOf))) return fitting[0];
  const most = Math.max(...fitting.map((k) => filled(kinds[k], left)));
  return fitting.find((k) => filled(kinds[k], left) === most) ?? fitting[0];
}

/**
 * Parts for so many tasks at the most, and few less, turn about between the berths and the kinds;
 * `size` times as large as usual. Every second boat is lifted at the end.
 */
export function partsFor(
  berths: readonly Berth[],
  tasks: number,
  word: string,
  size: number,
  random: Random,
): PartInput[][] {
  const lifts = berths.map((_, k) => k % 2 === 0);
  let left = tasks - lifts.filter(Boolean).length * stepsOf('crane-lift');
  const found: PartInput[][] = berths.map(() => []);
  let turn = random.below(kinds.length);
  for (let k = 0; ; k++) {
    const next = nextKind(turn, left);
    if (next === null) break;
    turn = next + 1;
    const parts = found[k % berths.length];
    parts.push(
      partOf(kinds[next], parts.length + 1, berths[k % berths.length], word, size, random),
    );
    left -= sizeOf(kinds[next]);
  }
  return found.map((parts, k) => [...parts, hull(berths[k], parts, lifts[k])]);
}
