import { BOND_RULES } from '#cure/bond/rules.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import type { Quantity, Step } from '../procedures.ts';
import { known, type Report } from './faults.ts';
import { hasLine, type Shelf } from './shelf.ts';

type Path = readonly PropertyKey[];

/** Mat that only styrene wets out, in a resin without any: whatever it is laid on. */
function binderFault(
  to: Report,
  step: Step,
  fabric: string,
  material: CureMaterial | undefined,
  shelf: Shelf,
  path: Path,
): void {
  const row = shelf.fabrics.get(fabric);
  if (material === undefined || row === undefined) return;
  const rule = BOND_RULES.find(
    ({ bond, when }) =>
      bond === 'refused' &&
      when.binder?.includes(row.binder) === true &&
      when.next?.includes(material.base) !== false,
  );
  if (rule === undefined) return;
  to.add(
    'cure.bond',
    path,
    `${step.name} lays ${row.name} in ${material.name}: ${rule.reason} (${rule.source})`,
    { value: fabric, cure: 'Use another fabric, or a resin with styrene.' },
  );
}

/** Fabrics of plies, and the numbers of the sheet that grams cannot be reckoned without. */
function quantityFaults(
  to: Report,
  step: Step,
  quantity: Quantity,
  material: CureMaterial | undefined,
  shelf: Shelf,
  path: Path,
): void {
  if (quantity.kind === 'laminate' || quantity.kind === 'tabbing') {
    quantity.plies.forEach(({ fabric }, k) => {
      const at = [...path, 'plies', k, 'fabric'];
      if (known(to, 'fabric', fabric, shelf.fabrics, at))
        binderFault(to, step, fabric, material, shelf, at);
    });
    return;
  }
  if (material === undefined) return;
  const lacks = (line: string, at: Path): void => {
    to.add('cure.missing', at, `${step.name} cannot be weighed: ${material.name} has no ${line}`, {
      value: null,
      cure: `Enter the line "${line}" of the data sheet of ${material.name}.`,
    });
  };
  if (quantity.kind === 'coat' || quantity.kind === 'glue-line') {
    if (quantity.gramsPerM2 === null && material.gramsPerM2 === null)
      lacks('coverage, grams per square metre and coat', [...path, 'gramsPerM2']);
  } else if (material.mixedDensity === null)
    lacks('density of the mix, kilograms per litre', [...path, 'kind']);
}

/** What is mixed, in how many batches, and what a step makes ready for the next. */
export function mixFaults(to: Report, step: Step, shelf: Shelf, path: Path): void {
  const { name, material, quantity, oneBatch, prepares } = step;
  const sheet = material === null ? undefined : shelf.sheets.get(material);
  const wrong = (field: keyof Step, message: string, cure: string): void => {
    to.add('input.field', [...path, field], `${name} ${message}`, { value: step[field], cure });
  };
  if (quantity !== null) {
    if (material === null)
      wrong('quantity', 'weighs something and names no material', 'Name what is mixed.');
    quantityFaults(to, step, quantity, sheet, shelf, [...path, 'quantity']);
  }
  if (oneBatch) {
    if (quantity === null)
      wrong(
        'oneBatch',
        'is spread in one batch, of which nothing says how much it is',
        'Give its quantity, or let it have several cups.',
      );
    if (sheet !== undefined)
      hasLine(to, sheet, 'pot-life', `one batch of ${name} has to be spread within`, [
        ...path,
        'oneBatch',
      ]);
  }
  if (prepares.length > 0 && material !== null)
    wrong(
      'prepares',
      'lays a film and prepares a surface',
      'Prepare it in a step of its own, before this one.',
    );
  prepares.forEach((one, k) => {
    for (const field of ['grit', 'mm'] as const) {
      if (one.kind === 'abrade' || one[field] === null) continue;
      const at = [...path, 'prepares', k, field];
      to.add('input.field', at, `${name}: "${one.kind}" has no ${field}`, {
        value: one[field],
        cure: `Give ${field} of abrading only.`,
      });
    }
  });
}
