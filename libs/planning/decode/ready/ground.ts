import { contains, type IntervalSet } from '#calendar/intervals.ts';
import { expandShifts } from '#calendar/shifts/expand.ts';
import type { Release } from '#scheduling/model/problem.ts';
import { firstMinute } from '../../compile/climate/climate.ts';
import { filmsOf, type Films } from '../../compile/films/films.ts';
import { frameOf, type Frame } from '../../compile/frame/time.ts';
import { releases } from '../../compile/site/outside.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Hours, Space, Tool } from '../../yard/spaces.ts';
import type { Yard } from '../../yard/yard.ts';
import { moments, type Moments } from '../reading/moments.ts';
import { rowsOf, type Rows } from '../reading/rows.ts';
import { structureOf, type Structure } from './structure.ts';

const DAY = 1440;
/** Films are followed so far beyond now at least. */
const DAYS_AHEAD = 30;

/** The yard without what is done in it: the same for all moments of a day and all states of the work. */
export interface Ground {
  readonly yard: Yard;
  readonly structure: Structure;
  readonly frame: Frame;
  readonly horizon: number;
  readonly films: Films;
  /** Its tasks are those of one state only. */
  readonly rows: Rows;
  readonly at: Moments;
  readonly releases: (task: Task) => readonly Release[];
  readonly spaces: ReadonlyMap<string, Space>;
  readonly tools: ReadonlyMap<string, Tool>;
  /** Whether something with such hours may be used at a minute, and else from when on; null: never again. */
  openFrom(hours: readonly Hours[] | null, minute: number): number | null;
  /** All that such hours leave open; null: whatever is asked of from that minute on. */
  openSpans(hours: readonly Hours[] | null, minute: number): IntervalSet | null;
}

function hoursIn(frame: Frame, horizon: number): Pick<Ground, 'openFrom' | 'openSpans'> {
  const known = new Map<readonly Hours[], IntervalSet>();
  const openSpans: Ground['openSpans'] = (hours, minute) => {
    // Before the plan's time nobody has said.
    if (hours === null || minute < 0) return null;
    let spans = known.get(hours);
    if (spans === undefined) {
      const pattern = hours.map((span) => ({ ...span, breaks: [] }));
      spans = expandShifts(pattern, [], frame.timeZone, frame.origin, horizon).shifts;
      known.set(hours, spans);
    }
    return spans;
  };
  return {
    openSpans,
    openFrom: (hours, minute) => {
      const spans = openSpans(hours, minute);
      if (spans === null || contains(spans, minute)) return minute;
      return spans.find(({ start }) => start > minute)?.start ?? null;
    },
  };
}

interface Made {
  readonly first: number;
  readonly structure: Structure;
  readonly ground: Ground;
}

const grounds = new WeakMap<Yard, Made>();

/** Of the yard at a minute from its `planFrom`; made once for as long as it is the same. */
export function groundOf(yard: Yard, workload: Workload, now: number): Ground {
  const frame = frameOf(yard, undefined, undefined);
  const structure = structureOf(workload);
  const horizon = Math.max(frame.horizon, (Math.ceil(now / DAY) + DAYS_AHEAD) * DAY);
  const first = firstMinute(workload, frame, Math.min(0, now));
  const known = grounds.get(yard);
  const sameFilms = known?.first === first && known.ground.horizon === horizon;
  if (sameFilms && known.structure === structure) return known.ground;
  const ground: Ground = {
    yard,
    structure,
    frame,
    horizon,
    films: sameFilms
      ? known.ground.films
      : filmsOf(yard, workload, { ...frame, horizon }, Math.min(0, now)),
    rows: rowsOf(yard, workload),
    at: moments(frame.origin, yard.timeZone),
    releases: releases(yard, frame),
    spaces: new Map(yard.spaces.map((space) => [space.id, space])),
    tools: new Map(yard.tools.map((tool) => [tool.id, tool])),
    ...hoursIn(frame, horizon),
  };
  grounds.set(yard, { first, structure, ground });
  return ground;
}
