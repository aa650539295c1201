import { toLocal } from '#calendar/local-time.ts';
import type { PlanSheet, SheetBoat, SheetTask, SheetWindow, When } from '#planning/decode/sheet.ts';

/** Sheets for tests: in UTC, every boat with one refit, people by their names. */

const whenAt = (at: string): When => {
  const minute = Date.parse(at) / 60_000;
  const { date, time } = toLocal(minute, 'UTC');
  return { at: new Date(at).toISOString().replace('.000Z', 'Z'), local: `${date}T${time}` };
};

export interface HandMadeTask {
  readonly id: string;
  readonly start: string;
  readonly finish: string;
  readonly crew?: readonly string[];
  readonly boat?: string;
  readonly part?: string;
  readonly state?: SheetTask['state'];
  /** Of the task's film: to which task, and when it shuts. */
  readonly windows?: readonly { readonly to: string; readonly closes: string | null }[];
  readonly segments?: readonly (readonly [start: string, finish: string])[];
}

const windowOf =
  (from: string) =>
  ({ to, closes }: { readonly to: string; readonly closes: string | null }): SheetWindow => ({
    linkId: `${from}..${to}`,
    toTask: to,
    toName: to,
    kind: 'bond',
    opens: null,
    closes: closes === null ? null : whenAt(closes),
  });

function taskOf(task: HandMadeTask): SheetTask {
  const { id, start, finish, crew = [], boat = 'Petrel', part = 'hatch', windows = [] } = task;
  const segments = task.segments ?? [[start, finish]];
  return {
    id,
    name: id,
    refitId: `${boat} refit`,
    boatId: boat,
    boat,
    partId: `${boat} ${part}`,
    part,
    jobId: 'job',
    stepId: 'step',
    spaceId: 'bay',
    space: 'Bay',
    air: 'clean',
    skill: 'fairing',
    material: null,
    state: task.state ?? 'waiting',
    start: whenAt(start),
    finish: whenAt(finish),
    segments: segments.map(([from, to]) => ({ start: whenAt(from), finish: whenAt(to) })),
    crew: crew.map((name) => ({ personId: name.toLowerCase(), name })),
    overtimeMinutes: 0,
    cleanedDown: null,
    movesTo: null,
    slot: null,
    floatMinutes: null,
    film: [],
    windows: windows.map(windowOf(id)),
    mix: null,
    bond: null,
    consumables: [],
    warnings: [],
    cautions: [],
  };
}

export interface HandMadeBoat {
  readonly boat: string;
  readonly finish: string;
  readonly promised?: string;
  readonly lateMinutes?: number;
}

function boatOf({ boat, finish, promised, lateMinutes = 0 }: HandMadeBoat): SheetBoat {
  return {
    boatId: boat,
    boat,
    refitId: `${boat} refit`,
    refit: 'refit',
    ownerId: null,
    promised: promised === undefined ? null : whenAt(promised),
    finish: whenAt(finish),
    lateMinutes,
    earliest: whenAt(finish),
    gapMinutes: 0,
    tasks: 1,
    chain: [],
  };
}

export function handMadeSheet(
  tasks: readonly HandMadeTask[],
  boats: readonly HandMadeBoat[] = [],
  choices: PlanSheet['choices'] = [],
): PlanSheet {
  return {
    version: 3,
    yardId: 'yard',
    yard: 'Yard',
    timeZone: 'UTC',
    currency: 'EUR',
    origin: whenAt('2026-11-02T00:00:00Z'),
    horizon: whenAt('2026-12-02T00:00:00Z'),
    status: 'feasible',
    tasks: tasks.map(taskOf),
    choices,
    boats: boats.map(boatOf),
    ranks: [],
    money: { labour: 0, overtime: 0, slots: 0, prices: 0, climate: 0, total: 0 },
    moved: [],
    shopping: [],
    materials: [],
    caution: '',
  };
}
