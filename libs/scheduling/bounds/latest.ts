import type { CompiledMode } from '../search/crew/compiled.ts';
import {
  minuteAt,
  minutesBefore,
  spanAfter,
  type Spans,
  type WorkTable,
} from '../search/crew/spans.ts';

/** The last minute up to `t` that no span holds, which may be before time began. */
function outsideBackwards(spans: Spans, t: number): number {
  const i = spanAfter(spans, t);
  return i < spans.count && spans.starts[i] <= t ? spans.starts[i] - 1 : t;
}

function latestInOnePiece(spans: Spans, minutes: number, start: number): number {
  let i = Math.min(spanAfter(spans, start), spans.count - 1);
  for (; i >= 0; i -= 1) {
    const s = Math.min(start, spans.ends[i] - minutes);
    if (s >= spans.starts[i]) return s;
  }
  return -1;
}

function latestWithPauses(spans: Spans, minutes: number, start: number, finish: number): number {
  const byFinish = minutesBefore(spans, finish) - minutes;
  const byStart = minutesBefore(spans, start + 1) - 1;
  const k = Math.min(byFinish, byStart);
  return k < 0 ? -1 : minuteAt(spans, k);
}

/**
 * The latest start no later than `start`, with a finish no later than `finish`, that the
 * calendar and the forbidden starts allow; -1 if there is none.
 */
export function calendarLatest(
  mode: CompiledMode,
  table: WorkTable,
  minutes: number,
  start: number,
  finish: number,
): number {
  let s = Math.min(start, finish - minutes);
  while (s >= 0) {
    if (mode.forbidden !== null) s = outsideBackwards(mode.forbidden, s);
    if (mode.crews === null || s < 0) return s;
    let at: number;
    if (!mode.pauses) at = latestInOnePiece(mode.relieved ? table.shifts : table.work, minutes, s);
    else at = minutes > 0 ? latestWithPauses(table.work, minutes, s, finish) : s;
    if (at === s) return s;
    s = at;
  }
  return -1;
}
