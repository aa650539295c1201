import { bondOf } from '#cure/bond/bond-of.ts';
import type { Done, NextCoat, Stage, Surface } from '#cure/bond/bond.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import type { Preparation, Step } from '../../procedures.ts';
import type { Come, Meeting } from './meetings.ts';

/** What is wrong with laying one material on a surface, or only to be told. */
export interface Judgement {
  readonly wrong: boolean;
  readonly message: string;
  readonly cure: string;
  readonly source: string;
}

/** One finding of the rules, and where in the yard file it belongs. */
export interface Placed {
  readonly path: readonly PropertyKey[];
  readonly value: unknown;
  readonly judgement: Judgement;
}

const HOUR = 60;
const DAY = 24 * HOUR;

/** Long enough ago that a wipe has flashed off, and not so long that it is stale: the plan's links see to that. */
export const PREPARED_AGO = HOUR;

const STAGES: Readonly<Record<Come, Stage>> = {
  open: 'open',
  soft: 'between',
  hard: 'hard',
  cured: 'cured',
};

/** Ages that stand for what a plan will make of it: the rules ask of epoxy for five days, of waxed polyester for one. */
const AGES: Readonly<Record<Come, number>> = {
  open: HOUR,
  soft: DAY,
  hard: 2 * DAY,
  cured: 7 * DAY,
};

const doneBy = (preparations: readonly Preparation[]): Done[] =>
  preparations.map(({ kind, grit }) => ({ kind, grit, minutesAgo: PREPARED_AGO }));

/** The surface that a film of this material leaves, once it has come so far and had this done to it. */
export function surfaceOf(
  material: CureMaterial,
  come: Come,
  preparations: readonly Preparation[],
): Surface {
  const peeled = preparations.some(({ kind }) => kind === 'peel');
  return {
    substrate: material.base,
    kind: peeled ? 'peel-ply' : material.surface,
    stage: STAGES[come],
    waxed: material.waxed,
    blush: material.blushes,
    done: doneBy(preparations),
    ageMinutes: AGES[come],
  };
}

/** What a step lays. Its fabrics are judged by themselves, whatever they are laid on (`mixes.ts`). */
export const coatOf = ({ bonding }: Step, { base, use }: CureMaterial): NextCoat => ({
  base,
  use,
  bonding,
  binder: null,
});

/**
 * What the rules of bonding have against a coat on a surface; `what` begins each sentence, as
 * in `Coat two on Coat one`. Refused, or not to be coated yet although the links say so: wrong.
 * A preparation that is missing or out of order is wrong where the procedure declares what it
 * prepares (`declared`), and else a warning. A rule's own warnings are told.
 */
export function judged(
  what: string,
  surface: Surface,
  next: NextCoat,
  declared: boolean,
): Judgement[] {
  const { bond, reason, source, preparation, warnings } = bondOf(surface, next);
  const told = warnings.map((message) => ({
    wrong: false,
    message: `${what}: ${message}`,
    cure: 'Follow the data sheet.',
    source,
  }));
  if (bond === 'refused') {
    const cure = 'Use another material, or another procedure for the part.';
    return [{ wrong: true, message: `${what} does not bond: ${reason}`, cure, source }];
  }
  if (bond === 'wait') {
    const cure = 'Let the link open later, at a milestone that the rule allows.';
    const wrong = surface.stage === 'open';
    return [{ wrong, message: `${what} comes too early: ${reason}`, cure, source }];
  }
  if (preparation.length === 0) return told;
  const whole = bondOf({ ...surface, done: [] }, next).preparation;
  const order = (whole.length === 0 ? preparation : whole).map(({ words }) => words);
  const left = preparation.map(({ kind }) => kind).join(', ');
  return [
    {
      wrong: declared,
      message: declared
        ? `${what} lacks preparation, or has it in another order (left to do: ${left}): ${reason}`
        : `${what}: no step says what it prepares. ${reason}`,
      cure: `In this order, before the coat: ${order.join('; then: ')}.`,
      source,
    },
    ...told,
  ];
}

/**
 * A coat that the links let come at any time after the film below has opened: what the rules ask
 * once the window is over, where that is more than before.
 */
export function unclosedTold(
  what: string,
  { unclosed }: Pick<Meeting, 'unclosed'>,
  hard: Surface,
  next: NextCoat,
): Judgement[] {
  if (!unclosed) return [];
  const { bond, reason, preparation, source } = bondOf(hard, next);
  if (bond !== 'refused' && bond !== 'wait' && preparation.length === 0) return [];
  return [
    {
      wrong: false,
      message: `${what}: no link says until when, and once the window is over: ${reason}`,
      cure: 'Close the link with the window ("bond-closes" or "tacky-closes"), or prepare the surface.',
      source,
    },
  ];
}
