import { takenTo } from '#planning/compile/site/parts.ts';
import type { TaskLink } from '#planning/workload/workload.ts';
import { noEdits, type WorkEdits } from '../edits/edits.ts';
import { behind } from './behind.ts';
import { copiesOf, rootOf } from './copies.ts';
import { extentFor } from './extent.ts';
import { isWet, partOf } from './films.ts';
import { dryStarts, entries, footingOf } from './footing.ts';
import { turning, type Ground } from './ground-up.ts';
import { plightOf, type Plight, type ReworkInput } from './plight.ts';
import { order } from './preparing.ts';
import { faceUp } from './redone.ts';
import { markOf, type Reworked } from './rework.ts';
import { reworkWords } from './words.ts';

function groundOf({ input, task, cut }: Plight): Ground {
  const { yard, workload, areaM2, reworkId } = input;
  const part = partOf(yard, task.partId);
  const byId = new Map(workload.tasks.map((one) => [one.id, one]));
  return {
    yard,
    workload,
    part,
    space: takenTo(workload.tasks).get(part.id) ?? part.space,
    extent: extentFor(yard, part, task, areaM2, cut),
    reworkId,
    mark: markOf(reworkId),
    root: (one) => rootOf(one, byId),
  };
}

/** The part lies on the face that the fault is on, where it was turned since and has stayed there. */
function faceDown({ task, work, input }: Plight, { space, part }: Ground): boolean {
  if (!isWet(task)) return false;
  const since = Date.parse(task.startedAt ?? '');
  if (faceUp(work, since) === faceUp(work, Infinity)) return false;
  // Standing where it was taken since, both faces can be got at.
  return !input.workload.tasks.some(
    ({ state, parts, movesTo, space: from, startedAt }) =>
      state === 'done' &&
      movesTo === space &&
      movesTo !== from &&
      parts.includes(part.id) &&
      Date.parse(startedAt ?? '') >= since,
  );
}

/** What was taken somewhere is there: the first of the rework comes after the last move that was made. */
function afterMoves({ workload, part }: Ground, first: string): TaskLink[] {
  return workload.tasks
    .filter(
      ({ state, movesTo, parts }) =>
        state === 'done' && movesTo !== null && parts.includes(part.id),
    )
    .sort((a, b) => Date.parse(a.finishedAt ?? '') - Date.parse(b.finishedAt ?? ''))
    .slice(-1)
    .map(({ id }) => order(`${id}..${first}`, id, first));
}

/**
 * The work that a fault makes: what comes off and how far down, how the ground is prepared for what
 * goes on it by the rules of bonding, the steps that made what was taken off once more with their
 * windows and ways, and what waits behind them waiting for these instead. A fault of less than the
 * whole is sized by its area. Throws record.missing, snag.state where the task has not been done or
 * something over it is under way, and yard.reference.
 */
export function reworkFor(input: ReworkInput): Reworked {
  const plight = plightOf(input);
  const ground = groundOf(plight);
  const copies = copiesOf(plight.again, ground);
  const footing = footingOf(plight, ground, copies);
  const chains = entries(plight, ground, copies);
  const down = faceDown(plight, ground);
  const over = down ? turning(ground, 'over') : null;
  const back = down ? turning(ground, 'back') : null;
  const start = footing.tasks.at(0)?.id ?? copies.idOf.get(plight.task.id);
  const rest = behind(plight, ground, copies, footing, back);
  const edits: WorkEdits = {
    ...noEdits,
    addTasks: [
      ...(over === null ? [] : [over]),
      ...footing.tasks,
      ...copies.tasks,
      ...chains.flatMap(({ tasks }) => tasks),
      ...(back === null ? [] : [back]),
    ],
    addLinks: [
      ...(start === undefined ? [] : afterMoves(ground, over?.id ?? start)),
      ...(over === null || start === undefined
        ? []
        : [order(`${over.id}..${start}`, over.id, start)]),
      ...footing.links,
      ...copies.links,
      ...chains.flatMap(({ links }) => links),
      ...dryStarts(plight, copies, footing),
      ...rest.addLinks,
    ],
    addChoices: copies.choices,
    covers: [...footing.covers, ...chains.flatMap(({ covers }) => covers)],
    branchLinks: rest.branchLinks,
    removeLinks: rest.removeLinks,
    redo: plight.redo,
  };
  return { edits, words: reworkWords(plight, ground, footing) };
}
