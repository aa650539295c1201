import { z } from 'zod';
import type { Milestone } from '#planning/yard/materials.ts';
import type { Observation } from '#planning/yard/observed.ts';

/** What a gloved finger, or a stroke with the paper, tells of a film. */
export const tackFindingSchema = z.enum(['still-wet', 'tacky', 'clogs', 'dry']);
type TackFinding = z.output<typeof tackFindingSchema>;

/** A builder's test of the film that a task has left. */
export const tackTestSchema = z.strictObject({
  taskId: z.string().min(1).max(300).describe('The task that has laid the film.'),
  found: tackFindingSchema.describe('Wet, tacky, clogs the paper, or sands dry.'),
  note: z.string().max(500).default(''),
});
type TackTest = z.output<typeof tackTestSchema>;

interface Reached {
  readonly milestone: Milestone;
  readonly found: Observation['found'];
}

/**
 * What each finding says of a film's milestones: nothing of one that it does not touch, a film that
 * clogs may be free of tack or not. Common practice, no source.
 */
const says: Readonly<Record<TackFinding, readonly Reached[]>> = {
  'still-wet': [
    { milestone: 'tacky-opens', found: 'not-yet' },
    { milestone: 'tack-free', found: 'not-yet' },
  ],
  tacky: [
    { milestone: 'tacky-opens', found: 'already' },
    { milestone: 'tacky-closes', found: 'not-yet' },
    { milestone: 'tack-free', found: 'not-yet' },
  ],
  clogs: [{ milestone: 'sandable', found: 'not-yet' }],
  dry: [{ milestone: 'sandable', found: 'already' }],
};

/** A film that lies: of what, where, since when (ISO instant, whole minutes). */
export interface Film {
  readonly material: string;
  readonly space: string;
  readonly laidAt: string;
}

/** The test of a film, at a moment, as observations of its material; each id ends in its milestone. */
export function observationsOf(
  { found, note }: Pick<TackTest, 'found' | 'note'>,
  film: Film,
  at: string,
  id: string,
): Observation[] {
  return says[found].map((reached) => ({
    ...film,
    ...reached,
    id: `${id}.${reached.milestone}`,
    at,
    grams: null,
    hardenerPercent: null,
    note,
  }));
}
