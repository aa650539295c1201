import type { Problem } from '../model/problem.ts';
import { readCalendars } from './calendars/read.ts';
import { readDzn } from './dzn/read.ts';
import { multiModeProblem } from './multi-mode.ts';
import { dialectOf, multiSkillProblem } from './multi-skill.ts';
import { readSch } from './sch.ts';
import { readSm } from './sm.ts';

/** Whether a file of this name can be read; what it holds is another question. */
export const isProblemFile = (name: string): boolean => /\.(sm|sch|dzn|json)$/i.test(name);

/**
 * The problem of a benchmark file, read by its name's ending and its fields. `beside` gives the
 * text of another file that this one names. Throws `input.malformed`, and what `beside` throws.
 */
export function readProblemFile(
  name: string,
  text: string,
  beside: (name: string) => string,
): Problem {
  if (/\.sm$/i.test(name)) return readSm(text, name);
  if (/\.dzn$/i.test(name)) {
    const fields = readDzn(text, name);
    return dialectOf(fields) === 'skills' ? multiSkillProblem(fields) : multiModeProblem(fields);
  }
  return /\.json$/i.test(name) ? readCalendars(text, name, beside) : readSch(text, name);
}
