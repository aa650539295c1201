import { conversionMinutes } from '#cure/kinetics/conversion.ts';
import type { CureMaterial, Milestone } from '#cure/material/material.ts';
import { rateOf } from '#cure/material/rate.ts';
import type { Link, Moment, Procedure } from '../procedures.ts';
import { branchOf } from '../branch.ts';
import { circles } from '../circle.ts';
import { byId, known, type Report } from './faults.ts';
import { momentFaults } from './moments.ts';
import type { Shelf } from './shelf.ts';

/** Temperatures that a line lists; of a fallback or rate model the limits that it is followed between. */
function celsiusOf({ milestones, limits }: CureMaterial, milestone: Milestone): number[] {
  const law = milestones[milestone];
  if (law === undefined) return [];
  if (law.kind === 'table') return law.rows.map((row) => row.celsius);
  return [limits.minimumC.value, limits.maximumC.value];
}

/** Minutes to a moment at a temperature, as the sheet states it; null where it does not say. */
function minutesAt(
  moment: Moment,
  material: CureMaterial | undefined,
  celsius: number,
): number | null {
  if (moment.kind === 'after') return moment.minutes;
  const law = material?.milestones[moment.milestone];
  if (material === undefined || law === undefined) return null;
  const listed = celsiusOf(material, moment.milestone);
  if (listed.length === 0 || celsius < listed[0] || celsius > listed[listed.length - 1])
    return null;
  if (law.kind === 'conversion') return conversionMinutes(law, celsius, 1);
  return 1 / rateOf(law, 'expected', -Infinity)(celsius);
}

/** Equal times may differ by this share once one of them is read between rows. */
const ROUNDING = 1e-9;

/**
 * A window that closes before it opens at every temperature. Both sides are linear in
 * (log time, 1/T) between listed temperatures, so comparing at those decides it.
 */
function emptyWindow(link: Link, material: CureMaterial | undefined): boolean {
  const { opens, closes } = link;
  if (opens === null || closes === null) return false;
  const listed = new Set(
    [opens, closes].flatMap((moment) =>
      moment.kind === 'milestone' && material !== undefined
        ? celsiusOf(material, moment.milestone)
        : [],
    ),
  );
  const pairs = [...(listed.size === 0 ? [20] : listed)].flatMap((c) => {
    const open = minutesAt(opens, material, c);
    const close = minutesAt(closes, material, c);
    return open === null || close === null ? [] : [close < open * (1 - ROUNDING)];
  });
  return pairs.length > 0 && pairs.every((empty) => empty);
}

const momentWords = (moment: Moment | null): string => {
  if (moment === null) return 'nothing';
  return moment.kind === 'after' ? `${String(moment.minutes)} minutes` : `"${moment.milestone}"`;
};

/** References, milestones, windows and circles of a procedure's links. */
export function linkFaults(
  to: Report,
  procedure: Procedure,
  shelf: Shelf,
  path: readonly PropertyKey[],
): void {
  const steps = byId(procedure.steps);
  const index = new Map(procedure.steps.map((step, k) => [step.id, k]));
  const branches = branchOf(procedure);
  const arcs: [number, number][] = [];
  procedure.links.forEach((link, k) => {
    const here = [...path, 'links', k];
    const fromKnown = known(to, 'step', link.from, steps, [...here, 'from']);
    const toKnown = known(to, 'step', link.to, steps, [...here, 'to']);
    if (link.opens === null && link.closes === null) {
      to.add('input.field', here, `the link "${link.id}" neither opens nor closes anything`, {
        value: link.id,
        cure: 'Give it `opens`, or `closes`, or remove it.',
      });
    }
    const from = steps.get(link.from);
    if (!fromKnown || !toKnown || from === undefined) return;
    const material = from.material === null ? undefined : shelf.sheets.get(from.material);
    momentFaults(to, link.opens, from, material, [...here, 'opens']);
    momentFaults(to, link.closes, from, material, [...here, 'closes']);
    if (emptyWindow(link, material)) {
      const sheet =
        material === undefined ? '' : ` at any temperature on the sheet of ${material.name}`;
      to.add(
        'yard.window',
        [...here, 'closes'],
        `the window of "${link.id}" opens at ${momentWords(link.opens)} and closes at ${momentWords(link.closes)}, which comes first${sheet}`,
        {
          value: link.closes,
          cure: 'Make the window close after it opens.',
        },
      );
    }
    const apart = branches.get(link.from) !== undefined && branches.get(link.to) !== undefined;
    const exclusive =
      apart && branches.get(link.from) !== branches.get(link.to) && sameChoice(branches, link);
    if (link.opens !== null && !exclusive)
      arcs.push([index.get(link.from) ?? 0, index.get(link.to) ?? 0]);
  });
  for (const circle of circles(procedure.steps.length, arcs)) {
    const names = circle.map((step) => procedure.steps[step].id);
    to.add(
      'yard.cycle',
      [...path, 'links'],
      `steps wait for each other in a circle: ${[...names, names[0]].join(' -> ')}`,
      { value: names },
    );
  }
}

const choiceName = (branch: string | undefined): string => branch?.split('/')[0] ?? '';
const sameChoice = (branches: ReadonlyMap<string, string>, link: Link): boolean =>
  choiceName(branches.get(link.from)) === choiceName(branches.get(link.to));
