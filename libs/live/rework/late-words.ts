import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { preparationFor, preparedWords } from './preparation-for.ts';

/** Names what is worked out and never stored. */
const NOBODYS = '00000000-0000-4000-8000-000000000000';

/** What follows once the window of a link has shut: `it has to be washed with water, abraded … first`. */
export function lateWords(of: {
  readonly yard: Yard;
  readonly workload: Workload;
  readonly linkId: string;
}): string {
  const { yard, workload, linkId } = of;
  const { edits } = preparationFor({ yard, workload, linkIds: [linkId], reworkId: NOBODYS });
  return `it has to be ${preparedWords(edits.addTasks)} first`;
}
