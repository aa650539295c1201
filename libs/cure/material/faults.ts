import { fault, type Fault } from '#kernel/error.ts';

import { lawFaults } from './law-faults.ts';
import { MILESTONES, type CureMaterial, type Limits, type Milestone } from './material.ts';
import { rateOf, type TimeLaw } from './rate.ts';
import { amountFaults, hardenerFaults, limitFaults, massFaults } from './sheet-faults.ts';

const PAIRS: readonly (readonly [Milestone, Milestone])[] = [
  ['tacky-opens', 'tacky-closes'],
  ['bond-opens', 'bond-closes'],
];

/** Equal times may differ by this share once one of them is read between rows. */
const ROUNDING = 1e-9;

/** The temperatures that a law has data for, its ends among them: between them it is no surprise. */
function celsiusOf(law: TimeLaw, { minimumC, maximumC }: Limits): number[] {
  return law.kind === 'table'
    ? law.rows.map((row) => row.celsius)
    : [minimumC.value, maximumC.value];
}

/** Temperatures of either law that both have data for: there, and so between them, the pair is compared. */
function shared(a: TimeLaw, b: TimeLaw, limits: Limits): number[] {
  const [one, other] = [celsiusOf(a, limits), celsiusOf(b, limits)];
  const low = Math.max(one[0], other[0]);
  const high = Math.min(one[one.length - 1], other[other.length - 1]);
  return [...one, ...other].filter((c) => c >= low && c <= high);
}

/** The first temperature at which a window closes before it opens, as printed: without spreads. */
function crossing(
  { milestones, limits }: CureMaterial,
  pair: (typeof PAIRS)[number],
): number | null {
  const [first, second] = [milestones[pair[0]], milestones[pair[1]]];
  if (first === undefined || second === undefined) return null;
  if (first.kind === 'conversion' || second.kind === 'conversion') return null;
  const opening = rateOf(first, 'expected', -Infinity);
  const closing = rateOf(second, 'expected', -Infinity);
  return (
    shared(first, second, limits).find((c) => opening(c) < closing(c) * (1 - ROUNDING)) ?? null
  );
}

/**
 * What is wrong with a material's data: numbers that look like another unit, spreads that are
 * none, rows out of order, times that grow with warmth, limits the wrong way round, a hardener
 * outside its range, and windows that close before they open at a temperature for which both
 * have data. `path` says where the material stands in the input; the rest of a fault's path is
 * that within a `CureMaterial`.
 */
export function materialFaults(material: CureMaterial, path: string): Fault[] {
  const { limits, milestones } = material;
  const out = [
    ...limitFaults(limits, `${path}.limits`),
    ...hardenerFaults(material, `${path}.hardener`),
    ...massFaults(material.mass, `${path}.mass`),
    ...amountFaults(material, path),
  ];
  for (const name of MILESTONES) {
    const law = milestones[name];
    if (law !== undefined) out.push(...lawFaults(law, name, limits, `${path}.milestones.${name}`));
  }
  if (out.length > 0) return out;
  for (const pair of PAIRS) {
    const at = crossing(material, pair);
    if (at === null) continue;
    const message = `At ${at} °C ${pair[1]} comes before ${pair[0]}`;
    const more = { value: at, cure: 'Correct one of the two tables.' };
    out.push(fault('input.field', `${path}.milestones.${pair[1]}`, message, more));
  }
  return out;
}
