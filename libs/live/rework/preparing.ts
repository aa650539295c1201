import type { PreparationKind, PreparationStep } from '#cure/bond/bond.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Moment, Preparation } from '#planning/yard/procedures.ts';

/** Grit that laminate is ground with: 36 to 40, common practice, no source. */
const GRIND_GRIT = 40;

/** A wipe is stale after so long: common practice, no source (`cure/bond/preparation.ts`). */
const STALE = 240;

const now: Moment = { kind: 'after', minutes: 0 };

export const order = (id: string, from: string, to: string, opens: Moment = now): TaskLink => ({
  id,
  from,
  to,
  opens,
  closes: null,
  sweep: 'unknown',
  setBy: 'procedure',
});

/** What takes off that which grinding a film would rub in: solvent of wax or tack, water of an amine film. */
const firstOff = ({ waxed, surface, blushes }: CureMaterial): readonly PreparationKind[] =>
  waxed || surface === 'inhibited' ? ['dewax'] : blushes ? ['wash'] : [];

/** A surface is keyed with it, where no rule says another: 80 grit for bonding, 002-740, p. 16. */
const KEY_GRIT = 80;

const step = (kind: PreparationKind, grit: number | null = null): Preparation => ({
  kind,
  grit,
  mm: null,
  passes: 1,
});

/** What a face is keyed with, as far as it makes dust. */
export function keying(face: CureMaterial, asked: readonly PreparationStep[]): Preparation[] {
  const { dusty } = splitSteps(asked);
  const known = new Set(dusty.map(({ kind }) => kind));
  // Wax and tack load the paper, whatever the rules of bonding ask for.
  const first = firstOff(face).filter((kind) => !known.has(kind));
  const abrade = known.has('abrade') ? [] : [step('abrade', KEY_GRIT)];
  return [
    ...first.map((kind) => step(kind)),
    ...dusty.map(({ kind, grit }) => step(kind, grit)),
    ...abrade,
  ];
}

/**
 * What grinding down to a bed makes ready: the outermost film cleaned of what grinding would rub in,
 * then ground. A face that stays is then prepared as any; of what is cut into, what the rules ask for
 * first comes before the grinding as well.
 */
export function groundDown(
  outermost: CureMaterial,
  asked: readonly PreparationStep[],
  faceStays: boolean,
): Preparation[] {
  const { dusty } = splitSteps(asked);
  const before = dusty.flatMap(({ kind }) => (kind === 'abrade' ? [] : [kind]));
  const kinds = new Set([...firstOff(outermost), ...(faceStays ? [] : before)]);
  return [
    ...[...kinds].map((kind) => step(kind)),
    step('abrade', GRIND_GRIT),
    ...(faceStays ? dusty.map(({ kind, grit }) => step(kind, grit)) : []),
  ];
}

/** Work that a rework adds for somebody who can do `like`, on its part. */
export function addedTask(
  like: Task,
  own: Pick<
    Task,
    'id' | 'stepId' | 'name' | 'workMinutes' | 'air' | 'space' | 'rework' | 'portion'
  > &
    Partial<Pick<Task, 'prepares' | 'tools' | 'splittable' | 'sensitiveUntil' | 'coveredBy'>>,
): Task {
  return {
    ...like,
    floorMinutes: 0,
    crewMin: 1,
    crewMax: 2,
    material: null,
    quantity: null,
    oneBatch: false,
    prepares: [],
    movesTo: null,
    tools: [],
    splittable: true,
    breaks: 'observed',
    cleanDownMinutes: 0,
    holds: [],
    consumes: [],
    barrier: null,
    slots: null,
    price: 0,
    sensitiveUntil: null,
    coveredBy: [],
    state: 'waiting',
    startedAt: null,
    finishedAt: null,
    crew: [],
    fixedStart: null,
    leftMinutes: null,
    replaces: null,
    ...own,
  };
}

/** Tools that the yard grinds with: as other dusty work of the trade has them. */
export function grinders({ tasks }: Workload, like: Task): Task['tools'] {
  const dusty = tasks.filter(
    ({ air, prepares }) => air === 'dusty' && prepares.some(({ kind }) => kind === 'abrade'),
  );
  const near =
    dusty.find(({ jobId }) => jobId === like.jobId) ??
    dusty.find(({ skill }) => skill === like.skill) ??
    dusty.at(0);
  return near?.tools ?? [];
}

/** Steps that make dust or come before it, and those that take it up. */
export function splitSteps(steps: readonly PreparationStep[]): {
  readonly dusty: readonly PreparationStep[];
  readonly clean: readonly PreparationStep[];
} {
  const last = steps.findLastIndex(({ kind }) => kind === 'abrade');
  return { dusty: steps.slice(0, last + 1), clean: steps.slice(last + 1) };
}

/** From the last step of the preparation to the coat: flashed off, and not stale. */
export function coatLink(
  id: string,
  from: string,
  to: string,
  steps: readonly PreparationStep[],
): TaskLink {
  const last = steps.at(-1);
  const closes: Moment | null =
    last === undefined || last.staleMinutes === null
      ? null
      : { kind: 'after', minutes: last.staleMinutes };
  const opens: Moment = { kind: 'after', minutes: last?.waitMinutes ?? 0 };
  return { ...order(id, from, to, opens), closes };
}

/** A surface that was wiped takes no dust until it is coated. */
export const keptClean = (
  coat: string,
): Pick<Task, 'sensitiveUntil' | 'coveredBy' | 'splittable'> => ({
  sensitiveUntil: { kind: 'after', minutes: STALE },
  coveredBy: [coat],
  splittable: false,
});
