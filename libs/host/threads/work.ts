import type { Exchange, Shown } from '#scheduling/search/portfolio/board.ts';
import type { Desk } from '#scheduling/search/portfolio/desk.ts';
import type { Part } from '#scheduling/search/portfolio/rounds.ts';
import { beginPart, type Running } from '#scheduling/search/portfolio/running.ts';
import type { MemoryWatch } from './memory.ts';
import type { Finding } from './messages.ts';
import { cutAfter, isCut, mustStop, tellShortOfMemory, type Signals } from './watch.ts';

/** Between two looks at the signals a searcher should work about so long, in milliseconds. */
const LOOK = 4;
const LONGEST_STRIDE = 4096;

/** The stride after one that took so many milliseconds. */
function adapted(stride: number, took: number): number {
  if (took > LOOK) return Math.max(1, stride >> 1);
  return took < LOOK / 2 ? Math.min(LONGEST_STRIDE, stride * 2) : stride;
}

/** Does one thread's parts of rounds. */
export interface Workplace {
  /**
   * One part after the other, until one decides the problem or the signals say that the rest is
   * not wanted. `see` is called between strides.
   */
  work(
    parts: readonly Part[],
    exchange: Exchange,
    see: (shown: Shown, used: number) => void,
  ): Finding[];
}

export function workplaceOf(desk: Desk, signals: Signals, memory: MemoryWatch): Workplace {
  /** Bytes by which the thread grew while a searcher was at work. */
  const grown = new Map<number, number>();
  const unwanted = (seat: number): boolean => mustStop(signals) || isCut(signals, seat);

  /** The searcher at work is let go where memory is short and it has taken the most of it. */
  const spare = (running: Running, before: number): void => {
    if (running.state.done || !memory.isShort()) return;
    const { seat } = running.part;
    const own = (grown.get(seat) ?? 0) + memory.held() - before;
    if (Math.max(own, ...grown.values()) > own) return;
    running.drop();
    tellShortOfMemory(signals);
  };

  const doPart = (
    part: Part,
    exchange: Exchange,
    see: (shown: Shown, used: number) => void,
  ): Finding => {
    const { seat } = part;
    const before = memory.held();
    const running = beginPart(desk, part, exchange);
    let used = 0;
    let stride = 1;
    while (running.left > 0 && !unwanted(seat)) {
      const begun = performance.now();
      used += running.advance(stride);
      stride = adapted(stride, performance.now() - begun);
      see(running.shown(), used);
      spare(running, before);
    }
    grown.set(seat, (grown.get(seat) ?? 0) + Math.max(0, memory.held() - before));
    if (running.decided) cutAfter(signals, seat);
    const cut = running.left > 0 || !(part.whole || running.decided);
    return { ...running.shown(), seat, used, cut };
  };

  return {
    work(parts, exchange, see) {
      const findings: Finding[] = [];
      for (const part of parts) {
        if (unwanted(part.seat)) break;
        findings.push(doPart(part, exchange, see));
      }
      return findings;
    },
  };
}
