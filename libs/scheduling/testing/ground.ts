import type { Interval, Mode } from '../model/problem.ts';
import type { World } from './world.ts';

/**
 * Who and what is taken, minute by minute: slow and plain, and another method than the
 * checker's, so that the two can find each other's mistakes.
 */
export interface Ground {
  readonly world: World;
  /** By builder and minute: number of the shift (from 1), 0 off shift. */
  readonly shift: readonly Uint16Array[];
  /** By builder and minute: 1 in a shift and not in a break. */
  readonly working: readonly Uint8Array[];
  readonly busy: readonly Uint8Array[];
  /** By space and minute. */
  readonly dust: readonly Uint8Array[];
  readonly open: readonly Uint8Array[];
}

/** Work whose people and length are known and whose time is sought. */
export interface Draft {
  readonly mode: Mode;
  readonly builders: readonly number[];
  readonly minutes: number;
  /** When the surface is safe from dust after this finish; null where none is open. */
  readonly safeAt: ((finish: number) => number) | null;
  /** Goes by no calendar, in one piece. */
  readonly frozen: boolean;
}

export interface Slot {
  readonly start: number;
  readonly finish: number;
  readonly segments: readonly Interval[];
}

export function ground(world: World): Ground {
  const minutes = world.horizon;
  const blank = (): Uint8Array => new Uint8Array(minutes);
  const shift = world.builders.map(() => new Uint16Array(minutes));
  const working = world.builders.map(blank);
  world.builders.forEach((builder, b) => {
    const { shifts, breaks } = world.calendars[builder.calendar];
    shifts.forEach((span, i) => {
      shift[b].fill(i + 1, span.start, span.end);
      working[b].fill(1, span.start, span.end);
    });
    for (const span of breaks) working[b].fill(0, span.start, span.end);
  });
  return {
    world,
    shift,
    working,
    busy: world.builders.map(blank),
    dust: world.spaces.map(blank),
    open: world.spaces.map(blank),
  };
}

/** A slot at `start`, or the next start that is worth trying. */
type Trial = Slot | number;

function onePiece(g: Ground, draft: Draft, start: number): Trial {
  const finish = start + draft.minutes;
  if (finish > g.world.horizon) return g.world.horizon;
  for (let m = start; m < finish; m++)
    for (const b of draft.builders) {
      if (g.busy[b][m]) return m + 1;
      if (draft.frozen) continue;
      if (g.shift[b][m] === 0) return m + 1;
      if (g.shift[b][m] !== g.shift[b][start]) return m;
      if (draft.mode.breaks === 'observed' && !g.working[b][m]) return m + 1;
    }
  return { start, finish, segments: draft.minutes > 0 ? [{ start, end: finish }] : [] };
}

function pieces(g: Ground, draft: Draft, start: number): Trial {
  const segments: { start: number; end: number }[] = [];
  let left = draft.minutes;
  for (let m = start; m < g.world.horizon && left > 0; m++) {
    if (draft.builders.some((b) => !g.working[b][m])) {
      if (m === start) return start + 1;
      continue;
    }
    if (draft.builders.some((b) => g.busy[b][m])) return m + 1;
    const last = segments.at(-1);
    if (last?.end === m) last.end++;
    else segments.push({ start: m, end: m + 1 });
    left--;
  }
  if (left > 0) return g.world.horizon;
  return { start, finish: segments[segments.length - 1].end, segments };
}

/** Spaces and spans in which the work may not meet `dust` (wet) or `open` (dusty). */
function airOf(g: Ground, draft: Draft, slot: Slot): { space: number; spans: Interval[] }[] {
  const { mode } = draft;
  if (mode.space === null || mode.air === 'clean') return [];
  if (mode.air === 'wet') {
    const end = Math.max(slot.finish, draft.safeAt?.(slot.finish) ?? 0);
    return [{ space: mode.space, spans: [{ start: slot.start, end }] }];
  }
  const { settling, dustReaches } = g.world.spaces[mode.space];
  const spans = slot.segments.map(({ start, end }) => ({ start, end: end + settling }));
  return dustReaches.map((space) => ({ space, spans }));
}

/** A minute in which the air is not clear for the slot, or null. */
function blocked(g: Ground, draft: Draft, slot: Slot): number | null {
  const against = draft.mode.air === 'wet' ? g.dust : g.open;
  for (const { space, spans } of airOf(g, draft, slot))
    for (const { start, end } of spans) {
      const met = against[space].subarray(start, end).indexOf(1);
      if (met >= 0) return start + met;
    }
  return null;
}

function occupy(g: Ground, draft: Draft, slot: Slot): void {
  for (const { start, end } of slot.segments)
    for (const b of draft.builders) g.busy[b].fill(1, start, end);
  const own = draft.mode.air === 'wet' ? g.open : g.dust;
  for (const { space, spans } of airOf(g, draft, slot))
    for (const { start, end } of spans) own[space].fill(1, start, end);
}

/** The first slot at or after `from`, or else the first of all; taken at once. Null where there is none. */
export function settle(g: Ground, draft: Draft, from: number): Slot | null {
  const splits = draft.mode.splittable && draft.builders.length > 0 && !draft.frozen;
  const { horizon } = g.world;
  for (const [first, end] of [
    [from, horizon],
    [0, from],
  ])
    for (let start = first; start < end;) {
      const trial = splits ? pieces(g, draft, start) : onePiece(g, draft, start);
      if (typeof trial === 'number') {
        start = trial;
        continue;
      }
      const minute = blocked(g, draft, trial);
      if (minute === null) {
        occupy(g, draft, trial);
        return trial;
      }
      // One piece that begins any earlier would meet the same minute.
      start = splits ? start + 1 : Math.max(start, minute) + 1;
    }
  return null;
}
