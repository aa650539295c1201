import { formatLocal, isoOf } from '#calendar/local-time.ts';
import type { TaskWindow } from '#planning/decode/ready/windows.ts';
import type { SheetTask } from '#planning/decode/sheet.ts';
import type { EntryAlarm } from './entry.ts';
import type { WorkGround } from './work-ground.ts';

const MINUTE = 60_000;
/** How long before a window opens, and before it must be used, a client rings (common practice, no source). */
const OPENS_MINUTES = 15;
const CLOSES_MINUTES = 40;

/** The one opening and the one closing that a task has to mind; epoch milliseconds. */
export interface Minded {
  /** The latest opening of a film. */
  readonly opensAt: number | null;
  /** The earliest moment at which it is too late to begin, and what shuts then. */
  readonly startBy: number | null;
  readonly closesAt: number | null;
  readonly from: string | null;
}

/** Lags that are an order or a wait, and no window of a film. */
const plainKinds: ReadonlySet<string> = new Set(['sequence', 'wait', 'order']);

interface Seen {
  readonly to: string;
  readonly from: string;
  readonly isFilm: boolean;
  readonly opensAt: number | null;
  readonly closesAt: number | null;
  readonly startBy: number | null;
}

const parsed = (iso: string | null | undefined): number | null =>
  iso === null || iso === undefined ? null : Date.parse(iso);

/** By the plan: the later work is to be over by the closing, so it begins by as much sooner. */
function planned(sheet: SheetTask, lengths: ReadonlyMap<string, number>): [string, Seen][] {
  return sheet.windows.map(({ linkId, toTask, kind, opens, closes }) => {
    const closesAt = parsed(closes?.at);
    return [
      linkId,
      {
        to: toTask,
        from: sheet.id,
        isFilm: !plainKinds.has(kind),
        opensAt: parsed(opens?.at),
        closesAt,
        startBy: closesAt === null ? null : closesAt - (lengths.get(toTask) ?? 0),
      },
    ];
  });
}

/** As it really is; where the film is still being laid, it opens when the plan says. */
const real = (window: TaskWindow, plan: Seen | undefined): Seen => ({
  from: window.from,
  to: window.to,
  isFilm: window.milestones.opens !== null,
  opensAt: parsed(window.opensAt) ?? plan?.opensAt ?? null,
  closesAt: parsed(window.closesAt),
  startBy: parsed(window.startBy ?? window.closesAt),
});

/** Windows by the task that waits: the real ones, and where the film is not laid yet the planned ones. */
export function windowsByTask({ sheet, windows }: WorkGround): ReadonlyMap<string, Minded> {
  const tasks = sheet?.tasks ?? [];
  const lengths = new Map(
    tasks.map(({ id, segments }) => [
      id,
      segments.reduce(
        (sum, { start, finish }) => sum + Date.parse(finish.at) - Date.parse(start.at),
        0,
      ),
    ]),
  );
  const byLink = new Map<string, Seen>();
  for (const task of tasks) {
    for (const [link, seen] of planned(task, lengths)) byLink.set(link, seen);
  }
  for (const window of windows) {
    byLink.set(window.linkId, real(window, byLink.get(window.linkId)));
  }
  const out = new Map<string, Minded>();
  for (const seen of byLink.values()) out.set(seen.to, tightened(out.get(seen.to), seen));
  return out;
}

function tightened(known: Minded | undefined, seen: Seen): Minded {
  const before = known ?? { opensAt: null, startBy: null, closesAt: null, from: null };
  const opensAt =
    seen.isFilm && seen.opensAt !== null
      ? Math.max(before.opensAt ?? -Infinity, seen.opensAt)
      : before.opensAt;
  const isTighter =
    seen.startBy !== null && (before.startBy === null || seen.startBy < before.startBy);
  if (!isTighter) return { ...before, opensAt };
  return { opensAt, startBy: seen.startBy, closesAt: seen.closesAt, from: seen.from };
}

const wordsAt = (ms: number, zone: string): string =>
  formatLocal(isoOf(Math.floor(ms / MINUTE)), 0, zone);

/** `window opens Tue 3 Nov 13:40`, `start by …`, as far as they are known. */
export function windowWords(
  { opensAt, startBy, closesAt }: Minded,
  opener: string,
  zone: string,
): string[] {
  return [
    ...(opensAt === null ? [] : [`Window opens ${wordsAt(opensAt, zone)}.`]),
    ...(startBy === null || closesAt === null
      ? []
      : [
          `Start by ${wordsAt(startBy, zone)}: the window of ${opener} shuts ${wordsAt(closesAt, zone)}, and after that the surface has to be prepared again.`,
        ]),
  ];
}

/** What a client rings for: a while before the window opens, and before it is too late. */
export function alarmsOf(window: Minded, what: string, opener: string, zone: string): EntryAlarm[] {
  const [opens, shuts] = [
    windowWords({ ...window, startBy: null }, opener, zone),
    windowWords({ ...window, opensAt: null }, opener, zone),
  ];
  const alarm = (ms: number | null, minutes: number, words: readonly string[]): EntryAlarm[] =>
    ms === null || words.length === 0
      ? []
      : [
          {
            at: isoOf(Math.floor(ms / MINUTE) - minutes),
            words: `${what}: ${words.join(' ')}`,
          },
        ];
  return [
    ...alarm(window.opensAt, OPENS_MINUTES, opens),
    ...alarm(window.startBy, CLOSES_MINUTES, shuts),
  ];
}
