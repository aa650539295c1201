import { CLASSES, classOf } from '#cure/catalogue/classes.ts';
import { materialFaults as sheetFaults } from '#cure/material/faults.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import type { Fault } from '#kernel/error.ts';
import { cureMaterial, isTooShort } from '../cure-material.ts';
import { missingHardenerLines } from '../hardener.ts';
import { pathOf } from '../path.ts';
import type { Material } from '../materials.ts';
import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';

type Path = readonly PropertyKey[];

function lineFaults(to: Report, material: Material, path: Path): void {
  const seen = new Set<string>();
  material.milestones.forEach((line, k) => {
    const { milestone, rows, conversion } = line;
    const here = [...path, 'milestones', k];
    if (seen.has(milestone)) {
      to.add(
        'yard.duplicate',
        [...here, 'milestone'],
        `${material.name} has two lines for "${milestone}"`,
        { value: milestone, cure: 'Keep one line for the milestone.' },
      );
    }
    seen.add(milestone);
    if (conversion !== null && rows.length > 0) {
      to.add(
        'input.field',
        [...here, 'rows'],
        `${material.name}: "${milestone}" has both a table and a rate model`,
        { value: rows.length, cure: 'Keep one of the two.' },
      );
    }
    if (isTooShort(material, line)) {
      to.add(
        'cure.missing',
        [...here, 'rows'],
        `${material.name}: "${milestone}" is given at ${String(rows[0].celsius)} °C only, and no rule says how a gel coat changes from there`,
        {
          value: rows,
          cure: `Enter "${milestone}" at a second temperature from the data sheet of ${material.name}.`,
        },
      );
    }
    if (conversion === null && rows.length === 0) {
      to.add(
        'cure.missing',
        [...here, 'rows'],
        `${material.name}: the line "${milestone}" has no times`,
        { value: [], cure: `Enter the times of "${milestone}", or remove the line.` },
      );
    }
  });
}

/** A class that there is, of the same base; or all that has to be given without one. */
function classFaults(to: Report, material: Material, path: Path): boolean {
  const { name, classId, resinSystem } = material;
  const lacks = (field: keyof Material, line: string): void => {
    to.add(
      'cure.missing',
      [...path, field],
      `${name} is of no class, and its sheet has no ${line}`,
      {
        value: null,
        cure: `Enter the line "${line}" of its data sheet, or name a class of the catalogue.`,
      },
    );
  };
  const before = to.faults.length;
  if (classId === null) {
    if (material.minimumC === null) lacks('minimumC', 'lowest application temperature');
    if (material.maximumC === null) lacks('maximumC', 'highest application temperature');
    if (material.belowMinimum === null)
      lacks('belowMinimum', 'behaviour below its lowest temperature: it stalls, or it spoils');
  } else {
    const base = classOf(classId);
    if (base === undefined) {
      to.add(
        'yard.reference',
        [...path, 'classId'],
        `${name}: the catalogue has no class "${classId}"; there are: ${CLASSES.map(({ id }) => id).join(', ')}`,
        {
          value: classId,
          cure: 'Use a class of the catalogue, or give the whole sheet without one.',
        },
      );
    } else if (base.base !== resinSystem) {
      to.add(
        'input.field',
        [...path, 'resinSystem'],
        `${name} is ${resinSystem}, but its class "${classId}" is ${base.base}`,
        { value: resinSystem, cure: 'Correct the class or the resin system.' },
      );
    }
  }
  if (to.faults.length > before) return false;
  const base = classId === null ? undefined : classOf(classId);
  for (const field of missingHardenerLines(material, base?.hardener ?? null)) {
    const line =
      field === 'usual'
        ? 'usual percentage of hardener, by mass of the resin'
        : 'least and greatest percentage of hardener';
    to.add('cure.missing', [...path, 'hardener', field], `${name}: its sheet has no ${line}`, {
      value: null,
      cure: `Enter the line "${line}" of its data sheet.`,
    });
  }
  return to.faults.length === before;
}

/** Fields that the yard file has without the cure library's groups. */
const FLAT: readonly (readonly [RegExp, string])[] = [
  [/\.limits\.(minimumC|maximumC|warnBelowC)(\.value|\.spread)?$/, '.$1'],
  [/\.(limits|mass)\./, '.'],
];

/** A fault of the merged sheet, where the yard file has what it is of: a line of the class is of no line of the yard's. */
function placed(found: Fault, material: Material): Fault {
  const flat = FLAT.reduce((text, [from, into]) => text.replace(from, into), found.path);
  const { name } = material;
  const named = (subject: string): string =>
    found.message.startsWith(`${name}: `) ? found.message : `${subject}: ${found.message}`;
  const line = /^(.*\.milestones)\.([a-z-]+)(\.at|)(.*)$/.exec(flat);
  if (line === null) return { ...found, path: flat, message: named(name) };
  const [, list, milestone, at, rest] = line;
  const k = material.milestones.findIndex((one) => one.milestone === milestone);
  return k < 0
    ? { ...found, path: list, message: named(`${name}, "${milestone}" of its class`) }
    : {
        ...found,
        path: `${list}[${String(k)}]${at === '' ? '' : '.rows[0]'}${rest}`,
        message: named(name),
      };
}

/** The effective sheet of a material; null where there is something wrong with it, which is then said. */
function sheet(to: Report, material: Material, path: Path): CureMaterial | null {
  const before = to.faults.length;
  lineFaults(to, material, path);
  if (!classFaults(to, material, path)) return null;
  const merged = cureMaterial(material);
  if (to.faults.length === before) {
    const found = sheetFaults(merged, pathOf(path));
    const limits = found.some((one) => one.path.includes('.limits.'));
    // Which times lie within the limits is asked once the limits are right.
    const told = found.filter(
      (one) => !(limits && one.code === 'input.field' && one.path.endsWith('.at.celsius')),
    );
    to.faults.push(...told.map((one) => placed(one, material)));
  }
  return merged;
}

/** Ids and data sheets of materials and fabrics; the sheets with their classes under them, but for those that cannot be read. */
export function materialFaults(to: Report, yard: Yard): ReadonlyMap<string, CureMaterial> {
  for (const [what, list, rows] of [
    ['material', 'materials', yard.materials],
    ['fabric', 'fabrics', yard.fabrics],
    ['consumable', 'consumables', yard.consumables],
  ] as const)
    uniqueIds(
      to,
      what,
      rows.map((row, k) => ({ row, path: [list, k] })),
    );
  const spaces = byId(yard.spaces);
  const sheets = new Map<string, CureMaterial>();
  yard.materials.forEach((material, m) => {
    if (material.keptIn !== null)
      known(to, 'space', material.keptIn, spaces, ['materials', m, 'keptIn']);
    const merged = sheet(to, material, ['materials', m]);
    if (merged !== null) sheets.set(material.id, merged);
  });
  return sheets;
}
