import { fault, type Fault } from '#kernel/error.ts';

import { MILESTONES, type CureMaterial, type CureTable, type Milestone } from './material.ts';
import { rateOf } from './rate.ts';

const PAIRS: readonly (readonly [Milestone, Milestone])[] = [
  ['tacky-opens', 'tacky-closes'],
  ['bond-opens', 'bond-closes'],
];

/** Equal times may differ by this share once one of them is read between rows. */
const ROUNDING = 1e-9;

function tableFaults(table: CureTable, path: string): Fault[] {
  const { rows } = table;
  if (rows.length < 2) {
    const more = { value: rows.length, cure: 'Give the time at two temperatures or more.' };
    return [fault('input.field', `${path}.rows`, 'One temperature says nothing of another', more)];
  }
  const out: Fault[] = [];
  rows.forEach((row, k) => {
    const at = `${path}.rows[${k}]`;
    if (!(row.minutes > 0) || !Number.isFinite(row.minutes)) {
      const more = { value: row.minutes, cure: 'Give the time in minutes, more than 0.' };
      out.push(fault('input.field', `${at}.minutes`, `${row.minutes} is no length of time`, more));
    }
    if (k === 0) return;
    const before = rows[k - 1];
    if (row.celsius <= before.celsius) {
      const more = {
        value: row.celsius,
        cure: 'List the rows from cold to hot, each temperature once.',
      };
      out.push(
        fault(
          'input.field',
          `${at}.celsius`,
          `${row.celsius} °C follows ${before.celsius} °C`,
          more,
        ),
      );
    } else if (row.minutes > before.minutes) {
      const message = `${row.minutes} min at ${row.celsius} °C is longer than ${before.minutes} min at ${before.celsius} °C`;
      const cure = 'Check the sheet: nothing cures slower for being warmer.';
      out.push(fault('input.field', `${at}.minutes`, message, { value: row.minutes, cure }));
    }
  });
  return out;
}

/** Temperatures of either table that both have data for: there, and so between them, the pair is compared. */
function shared(a: CureTable, b: CureTable): number[] {
  const low = Math.max(a.rows[0].celsius, b.rows[0].celsius);
  const high = Math.min(a.rows[a.rows.length - 1].celsius, b.rows[b.rows.length - 1].celsius);
  return [...a.rows, ...b.rows].map((row) => row.celsius).filter((c) => c >= low && c <= high);
}

/**
 * What is wrong with a material's data: rows out of order, no or impossible times, times that
 * grow with warmth, limits the wrong way round, and windows that close before they open at a
 * temperature that both tables cover. `path` says where the material stands in the input.
 */
export function materialFaults(material: CureMaterial, path: string): Fault[] {
  const out: Fault[] = [];
  const { minimumC, maximumC, milestones } = material;
  if (!(minimumC < maximumC)) {
    const message = `The minimum, ${minimumC} °C, is not below the maximum, ${maximumC} °C`;
    const more = { value: minimumC, cure: 'Correct one of the two temperatures.' };
    out.push(fault('input.field', `${path}.minimumC`, message, more));
  }
  for (const name of MILESTONES) {
    const table = milestones[name];
    if (table !== undefined) out.push(...tableFaults(table, `${path}.milestones.${name}`));
  }
  if (out.length > 0) return out;
  for (const [opens, closes] of PAIRS) {
    const first = milestones[opens];
    const second = milestones[closes];
    if (first === undefined || second === undefined) continue;
    const opening = rateOf(first, 'open', -Infinity);
    const closing = rateOf(second, 'close', -Infinity);
    const at = shared(first, second).find((c) => opening(c) < closing(c) * (1 - ROUNDING));
    if (at === undefined) continue;
    const message = `At ${at} °C ${closes} comes before ${opens}`;
    const more = { value: at, cure: 'Correct one of the two tables.' };
    out.push(fault('input.field', `${path}.milestones.${closes}`, message, more));
  }
  return out;
}
