import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import type { PictureTask } from './picture.contract.ts';

/** A closing that comes so long after the follow-up has begun presses nobody. */
const pressingMs = 36 * 3_600_000;

const ms = (moment: string): number => Date.parse(moment);

/** Windows that a film opens or shuts; that one task merely comes after another is none. */
export function windowsOf(
  task: SheetTask,
  startOf: ReadonlyMap<string, string>,
): PictureTask['windows'] {
  return task.windows.flatMap(({ toTask, toName, kind, opens, closes }) => {
    const starts = startOf.get(toTask);
    const waits = opens !== null && ms(opens.at) > ms(task.finish.at);
    if (starts === undefined || (!waits && closes === null)) return [];
    const edges = { opens: opens?.at ?? null, closes: closes?.at ?? null };
    return [{ toTask, toName, kind, ...edges, starts }];
  });
}

/**
 * Until when a film matters: until the last that waits for it begins, and until a window shuts
 * that presses; with nothing after it until it is as hard as its sheet tells, cured aside.
 * Never longer than its sheet has something to say.
 */
export function filmUntil(
  { film, finish }: SheetTask,
  windows: PictureTask['windows'],
  horizon: PlanSheet['horizon'],
): string | null {
  if (film.length === 0) return null;
  const reached = (marks: SheetTask['film']): number =>
    Math.max(ms(finish.at), ...marks.map(({ when }) => ms((when ?? horizon).at)));
  const isUsed = film.filter(({ milestone }) => milestone !== 'cured');
  if (windows.length === 0) return iso(reached(isUsed));
  const starts = Math.max(...windows.map((one) => ms(one.starts)));
  const closings = windows.flatMap(({ closes, starts: begins }) =>
    closes !== null && ms(closes) - ms(begins) <= pressingMs ? [ms(closes)] : [],
  );
  return iso(Math.max(ms(finish.at), Math.min(starts, reached(film)), ...closings));
}

const iso = (at: number): string => new Date(at).toISOString();
