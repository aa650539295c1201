import { z } from 'zod';
import type { WorkEdits } from './edits.ts';

const list = z.array(z.unknown());
const edits = z.object({
  addTasks: list,
  addLinks: list,
  addChoices: list,
  branchLinks: list,
  covers: list,
  removeLinks: list,
  redo: list,
  drop: list,
  resize: list,
  addParts: list,
  dropParts: list,
} satisfies Record<keyof WorkEdits, typeof list>);

/** Edits as this service stored them: the lists are looked at, their records are its own. */
export function readEdits(stored: unknown): WorkEdits {
  return edits.parse(stored) as WorkEdits;
}
