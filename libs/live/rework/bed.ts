import { bondOf } from '#cure/bond/bond-of.ts';
import type { BondAnswer, NextCoat, PreparationStep, Stage, Surface } from '#cure/bond/bond.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Moment, Preparation } from '#planning/yard/procedures.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { isWet, sheetOf, zoneOf, type Wet } from './films.ts';
import { faceUp, type PartWork } from './redone.ts';

/** What new work is to hold on to. */
export interface Bed {
  /** Its film; null: what the part is made of. */
  readonly film: Wet | null;
  /** As a builder calls it. */
  readonly name: string;
  readonly surface: Omit<Surface, 'stage' | 'ageMinutes' | 'done'>;
  /** Its sheet says when it has cured through. */
  readonly cureKnown: boolean;
}

const knowsCure = ({ milestones }: CureMaterial): boolean => milestones.cured !== undefined;

const begunAt = ({ startedAt }: Task): number => Date.parse(startedAt ?? '');

/** What a cut exposes: no skin, wax or amine on it. */
const cutSurface = (substrate: Surface['substrate']): Bed['surface'] => ({
  substrate,
  kind: 'bare',
  waxed: false,
  blush: false,
});

/**
 * What lies under a film on its face, once that is cut away: the last film that was laid before it
 * and still counts, else the outermost layer of the part. Of a part of which nothing is known it is
 * taken for what the film itself is.
 */
export function bedBelow(yard: Yard, part: Part, work: PartWork, film: Wet): Bed {
  const at = begunAt(film);
  const up = faceUp(work, at);
  const below = [...work.tasks.values()]
    .filter(
      (one): one is Wet =>
        isWet(one) &&
        one.id !== film.id &&
        one.state === 'done' &&
        begunAt(one) < at &&
        faceUp(work, begunAt(one)) === up &&
        (zoneOf(one) === 'area' || zoneOf(one) === zoneOf(film)),
    )
    .sort((a, b) => begunAt(a) - begunAt(b))
    .at(-1);
  if (below !== undefined) {
    const sheet = sheetOf(yard, below);
    return {
      film: below,
      name: sheet.name,
      surface: cutSurface(sheet.base),
      cureKnown: knowsCure(sheet),
    };
  }
  const layer = part.layers.at(-1);
  const base = layer?.base ?? sheetOf(yard, film).base;
  const name = layer === undefined ? `${base}, as far as is known` : `the part's ${base}`;
  return { film: null, name, surface: cutSurface(base), cureKnown: false };
}

/** A film's own face, as it was laid. */
export function bedOn(yard: Yard, film: Wet): Bed {
  const sheet = sheetOf(yard, film);
  const { name, base, surface: kind, waxed, blushes } = sheet;
  const surface = { substrate: base, kind, waxed, blush: blushes };
  return { film, name, surface, cureKnown: knowsCure(sheet) };
}

/** What comes next onto it; a binder of its fabrics that may not suit counts before the others. */
export function nextCoat(yard: Yard, film: Wet): NextCoat {
  const { base, use } = sheetOf(yard, film);
  const { quantity, bonding } = film;
  const plies = quantity?.kind === 'laminate' || quantity?.kind === 'tabbing' ? quantity.plies : [];
  const binders = plies.map((ply) => yard.fabrics.find(({ id }) => id === ply.fabric)?.binder);
  const binder = binders.find((one) => one === 'styrene-soluble') ?? binders.at(0) ?? null;
  return { base, use, bonding, binder };
}

/** How the next film holds on a bed, what that costs, and what it has to wait for. */
export interface Hold {
  readonly answer: BondAnswer;
  readonly preparation: readonly PreparationStep[];
  /** Of the bed's film, from when on the next may lie on it; null: whenever it can be ground. */
  readonly waits: Moment | null;
}

const DAY = 24 * 60;

interface Ready {
  readonly stage: Stage;
  readonly ageMinutes: number | null;
  readonly waits: Moment | null;
}

/** In the order in which a film comes to them; the ages stand for the rules that ask for one. */
const READY: readonly Ready[] = [
  { stage: 'hard', ageMinutes: DAY, waits: null },
  { stage: 'cured', ageMinutes: DAY, waits: { kind: 'milestone', milestone: 'cured' } },
  { stage: 'cured', ageMinutes: 6 * DAY, waits: { kind: 'after', minutes: 5 * DAY } },
];
const LONG_AGO: readonly Ready[] = [{ stage: 'cured', ageMinutes: null, waits: null }];

const bonds = ({ bond }: BondAnswer): boolean => bond === 'chemical' || bond === 'mechanical';

/**
 * By the rules of bonding, of a bed that has hardened and to which nothing has been done: from the
 * first stage at which they let the next film on it. Where they never do, the answer says why, and
 * there is no preparation.
 */
export function holdOn({ film, surface, cureKnown }: Bed, next: NextCoat): Hold {
  const stages = cureKnown ? READY : READY.filter(({ waits }) => waits?.kind !== 'milestone');
  const answers = (film === null ? LONG_AGO : stages).map(({ stage, ageMinutes, waits }) => ({
    answer: bondOf({ ...surface, stage, done: [], ageMinutes }, next),
    waits,
  }));
  const found = answers.find(({ answer }) => bonds(answer));
  if (found === undefined) return { answer: answers[0].answer, preparation: [], waits: null };
  return { ...found, preparation: found.answer.preparation };
}

/** As a step of the yard does it. */
export const asPreparation = ({ kind, grit }: PreparationStep): Preparation => ({
  kind,
  grit,
  mm: null,
  passes: 1,
});
