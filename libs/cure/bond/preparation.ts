import type { Done, PreparationKind, PreparationStep, Surface } from './bond.ts';
import type { Needed } from './rule.ts';

/**
 * How each step is done. 15 min of flash-off after acetone: West System, Surface Preparations,
 * of oily wood. That a wipe is stale after 4 hours is common practice, no source.
 */
const STEPS: Readonly<Record<PreparationKind, Omit<PreparationStep, 'kind' | 'grit'>>> = {
  dewax: {
    words:
      'Take wax and grease off with solvent on clean rags, turned often; wipe dry before it dries by itself',
    waitMinutes: 15,
    staleMinutes: null,
  },
  wash: {
    words:
      'Wash with clean water and an abrasive pad, no solvent; dry with paper before it dries by itself',
    waitMinutes: 0,
    staleMinutes: null,
  },
  abrade: { words: 'Abrade until no gloss is left', waitMinutes: 0, staleMinutes: null },
  extract: { words: 'Take the dust off by vacuum', waitMinutes: 0, staleMinutes: null },
  wipe: {
    words: 'Wipe with acetone on clean rags and let it flash off fully',
    waitMinutes: 15,
    staleMinutes: 240,
  },
  peel: { words: 'Tear off the peel ply just before coating', waitMinutes: 0, staleMinutes: null },
};

function stepOf({ kind, grit }: Needed): PreparationStep {
  const step = STEPS[kind];
  const words = grit === undefined ? step.words : `${step.words}, ${grit} grit`;
  return { kind, ...step, words, grit: grit ?? null };
}

/** Whether something done counts as the step: coarse enough to key, and not stale. */
function counts(done: Done, step: PreparationStep): boolean {
  if (done.kind !== step.kind) return false;
  if (step.staleMinutes !== null && done.minutesAgo > step.staleMinutes) return false;
  return step.grit === null || (done.grit !== null && done.grit <= step.grit);
}

/**
 * What is still to be done, in order. A step counts only where those before it had been done
 * before: abrading before washing drives in what washing would have taken off, and dust made
 * after a wipe has to be wiped off again. Solvent that has not flashed off is waited for.
 */
export function stillToDo(
  needed: readonly Needed[],
  done: Surface['done'],
): readonly PreparationStep[] {
  const steps = needed.map(stepOf);
  const lastAbraded = done.map(({ kind }) => kind).lastIndexOf('abrade');
  let from = 0;
  for (const [k, step] of steps.entries()) {
    const least = step.kind === 'abrade' || step.kind === 'extract' || step.kind === 'wipe';
    const at = done.findIndex(
      (one, index) => index >= from && (!least || index >= lastAbraded) && counts(one, step),
    );
    if (at < 0) return steps.slice(k);
    from = at + 1;
  }
  return flashingOff(done);
}

/** What is left to wait for after the last solvent, also where nothing had asked for it. */
function flashingOff(done: Surface['done']): readonly PreparationStep[] {
  const last = done.findLast(({ kind }) => kind === 'wipe' || kind === 'dewax');
  if (last === undefined) return [];
  const step = stepOf({ kind: last.kind });
  const rest = step.waitMinutes - last.minutesAgo;
  if (rest <= 0) return [];
  return [{ ...step, words: 'Let the solvent flash off fully', waitMinutes: rest }];
}
