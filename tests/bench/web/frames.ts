import type { Browser, Page } from 'playwright-core';
import { z } from 'zod';
import { quantile } from '../bench.ts';

const eventSchema = z.object({
  name: z.string(),
  ph: z.string(),
  pid: z.number(),
  tid: z.number(),
  /** Microseconds. */
  ts: z.number(),
  dur: z.number().optional(),
  args: z.record(z.string(), z.unknown()).optional(),
});
type TraceEvent = z.output<typeof eventSchema>;

export interface FrameWork {
  /** Milliseconds of the main thread, of each frame. */
  readonly work: readonly number[];
  readonly median: number;
  readonly p95: number;
  readonly worst: number;
  /** The longest task that kept no frame waiting. */
  readonly between: number;
}

const categories = [
  'toplevel',
  'devtools.timeline',
  'devtools.timeline.frame',
  'benchmark',
  '__metadata',
];

/**
 * What the main thread of the page does a frame while `moving`: input and scripts and style and
 * layout and paint alike.
 */
export async function frameWork(
  browser: Browser,
  page: Page,
  moving: () => Promise<void>,
): Promise<FrameWork> {
  await browser.startTracing(page, { categories });
  await moving();
  const buffer = await browser.stopTracing();
  const { traceEvents } = z
    .object({ traceEvents: z.array(eventSchema.or(z.unknown())) })
    .parse(JSON.parse(buffer.toString()));
  const events = traceEvents.flatMap((one) => eventSchema.safeParse(one).data ?? []);
  return workOf(events, mainThreadOf(events));
}

interface Thread {
  readonly pid: number;
  readonly tid: number;
}

/** Of the one renderer whose main thread made frames; the most, where several did. */
function mainThreadOf(events: readonly TraceEvent[]): Thread {
  const counts = new Map<string, number>();
  for (const one of events.filter(isFrame)) {
    const key = `${String(one.pid)}/${String(one.tid)}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const most = [...counts].sort(([, a], [, b]) => b - a).at(0);
  if (most === undefined) throw new Error('no frame was made: nothing moved');
  const [pid, tid] = most[0].split('/').map(Number);
  return { pid, tid };
}

/** As the browser that npm ships names them; flows (`s`, `f`) bear the same names. */
const isFrame = ({ name, ph }: TraceEvent): boolean =>
  name === 'ProxyMain::BeginMainFrame' && ph === 'X';
const isTask = ({ name, ph }: TraceEvent): boolean =>
  name === 'ThreadControllerImpl::RunTask' && ph === 'X';

/** At 60 frames a second. */
const betweenFrames = 1_000_000 / 60;

/**
 * A frame's work: the task that makes it, and every task that kept it waiting, which is what began
 * after the frame before and less than a frame's time ahead of it. What runs while no frame is
 * wanted keeps none waiting; only the longest of it is told.
 */
function workOf(events: readonly TraceEvent[], { pid, tid }: Thread): FrameWork {
  const here = events.filter((one) => one.pid === pid && one.tid === tid);
  const begins = here
    .filter(isFrame)
    .map(({ ts }) => ts)
    .sort((a, b) => a - b);
  const work = begins.map(() => 0);
  let frame = 0;
  let between = 0;
  for (const { ts, dur = 0 } of here.filter(isTask).sort((a, b) => a.ts - b.ts)) {
    while (frame < begins.length && begins[frame] < ts) frame += 1;
    // The frame that a task makes begins within it.
    const own = begins[frame] ?? Infinity;
    if (own - ts < betweenFrames || own < ts + dur) work[frame] += dur / 1000;
    else between = Math.max(between, dur / 1000);
  }
  return {
    work,
    median: quantile(work, 0.5),
    p95: quantile(work, 0.95),
    worst: Math.max(...work),
    between,
  };
}
