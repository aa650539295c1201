import type { Interval } from '../../model/problem.ts';
import { dustMeets, fill } from './air.ts';
import { toolsOf, type Draft, type Ground, type Hours, type Place } from './ground.ts';

/** A place that begins at the start tried, or the next start that is worth trying. */
type Trial = Place | number;

const cleanDownOf = (draft: Draft): number => (draft.frozen ? 0 : draft.mode.cleanDown);

/** What binds a draft whenever it is tried: hours, those that are observed minute by minute, and people. */
interface Binding {
  readonly hours: readonly Hours[];
  readonly observed: readonly Hours[];
  readonly busy: readonly Uint8Array[];
}

function bindingOf(g: Ground, draft: Draft): Binding {
  const busy = draft.builders.map((b) => g.busy[b]);
  if (draft.frozen) return { hours: [], observed: [], busy };
  const tools = toolsOf(g, draft);
  const hours = [...draft.builders.map((b) => g.hours[b][draft.overtime ? 1 : 0]), ...tools];
  return { hours, observed: draft.mode.breaks === 'observed' ? hours : tools, busy };
}

function onePiece(g: Ground, draft: Draft, binding: Binding, start: number): Trial {
  const { lead } = g;
  const { hours, observed, busy } = binding;
  const finish = start + draft.minutes;
  const end = finish + cleanDownOf(draft);
  if (end > g.world.horizon) return g.world.horizon + 1;
  for (let m = start; m < end; m++) {
    if (busy.some((own) => own[lead + m])) return m + 1;
    for (const { shift } of hours) {
      if (shift[lead + m] === 0) return m + 1;
      if (shift[lead + m] !== shift[lead + start]) return m;
    }
    if (observed.some(({ working }) => !working[lead + m])) return m + 1;
  }
  return { start, finish, segments: start < finish ? [{ start, end: finish }] : [] };
}

function pieces(g: Ground, draft: Draft, { hours, busy }: Binding, start: number): Trial {
  const { lead } = g;
  const segments: { start: number; end: number }[] = [];
  let left = draft.minutes;
  for (let m = start; m < g.world.horizon && left > 0; m++) {
    if (hours.some(({ working }) => !working[lead + m])) {
      if (m === start) return start + 1;
      continue;
    }
    if (busy.some((own) => own[lead + m])) return m + 1;
    const last = segments.at(-1);
    if (last?.end === m) last.end++;
    else segments.push({ start: m, end: m + 1 });
    left--;
  }
  if (left > 0) return g.world.horizon + 1;
  return { start, finish: segments[segments.length - 1].end, segments };
}

/**
 * Null where its parts are there and nobody else's, and its barrier nobody else's, from start to
 * finish; else the next start that is worth trying.
 */
function unreachable(g: Ground, draft: Draft, { start, finish }: Place): number | null {
  const { lead } = g;
  const { space, barrier } = draft.mode;
  const taken = draft.parts.map((p) => g.taken[p]);
  if (barrier !== null) taken.push(g.acted[barrier.barrier]);
  for (const own of taken) {
    // Moments get a minute of their own, so that nothing is in the middle of a move.
    const met = own.subarray(lead + start, lead + Math.max(finish, start + 1)).lastIndexOf(1);
    if (met >= 0) return start + met + 1;
  }
  if (draft.frozen || space === null) return null;
  for (const p of draft.parts) {
    const there = g.where[p].indexOf(space, lead + start);
    if (there !== lead + start) return there < 0 ? g.world.horizon + 1 : there - lead;
  }
  return null;
}

function occupy(g: Ground, draft: Draft, place: Place): void {
  const { lead } = g;
  const { start, finish, segments } = place;
  const from = Math.max(0, lead + start);
  const to = Math.max(0, lead + finish);
  const spans: Interval[] = [...segments, { start: finish, end: finish + cleanDownOf(draft) }];
  for (const span of spans)
    for (const b of draft.builders) g.busy[b].fill(1, lead + span.start, lead + span.end);
  fill(g, draft, place);
  const { movesTo, barrier } = draft.mode;
  for (const p of draft.parts) {
    g.taken[p].fill(1, from, to);
    if (movesTo === null) continue;
    g.where[p].fill(movesTo, to);
    g.moves[p].push({ start, end: finish, to: movesTo });
  }
  if (!barrier) return;
  g.acted[barrier.barrier].fill(1, from, to);
  g.closed[barrier.barrier].fill(0, from, to);
  g.closed[barrier.barrier].fill(barrier.closes ? 1 : 0, to);
}

/**
 * A place in [from, until), taken at once; null where none was found: starts that are hardly
 * possible are skipped. Work that moves parts or acts on a barrier has to be placed in its order,
 * before all that depends on it.
 */
export function settle(g: Ground, draft: Draft, from: number, until: number): Place | null {
  const binding = bindingOf(g, draft);
  const splits = draft.mode.splittable && binding.hours.length > 0;
  for (let start = from; start < until;) {
    const trial = (splits ? pieces : onePiece)(g, draft, binding, start);
    if (typeof trial === 'number') {
      start = trial;
      continue;
    }
    const met = unreachable(g, draft, trial) ?? dustMeets(g, draft, trial);
    if (met === null) {
      occupy(g, draft, trial);
      return trial;
    }
    start = Math.max(start + 1, met);
  }
  return null;
}
