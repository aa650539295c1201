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
  readonly frames: number;
  /** Milliseconds of the main thread a frame. */
  readonly median: number;
  readonly p95: number;
  readonly worst: number;
}

const categories = [
  'toplevel',
  'devtools.timeline',
  'devtools.timeline.frame',
  'benchmark',
  '__metadata',
];

/**
 * What the main thread of the page does a frame while `moving`: every task that it runs counts for
 * the frame that it runs in, input and scripts and style and layout and paint alike.
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

function workOf(events: readonly TraceEvent[], { pid, tid }: Thread): FrameWork {
  const here = events.filter((one) => one.pid === pid && one.tid === tid);
  const begins = here
    .filter(isFrame)
    .map(({ ts }) => ts)
    .sort((a, b) => a - b);
  const work = begins.map(() => 0);
  let frame = 0;
  for (const task of here.filter(isTask).sort((a, b) => a.ts - b.ts)) {
    // A task belongs to the frame that begins in it, or before it.
    const end = task.ts + (task.dur ?? 0);
    while (frame + 1 < begins.length && begins[frame + 1] < end) frame += 1;
    if (begins[frame] < end) work[frame] += (task.dur ?? 0) / 1000;
  }
  return {
    frames: begins.length,
    median: quantile(work, 0.5),
    p95: quantile(work, 0.95),
    worst: Math.max(...work),
  };
}
