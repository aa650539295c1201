import { CUT_BACK, SCRAPE_OFF } from '#planning/workload/cut-back.ts';
import { turnsOver } from '#planning/workload/face.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { WorkEdits } from '../edits/edits.ts';
import { asPreparation, bedOn, holdOn, nextCoat, type Bed, type Hold } from './bed.ts';
import { grindMinutes, keyMinutes, sandOffMinutes, scrapeMinutes, wipeMinutes } from './efforts.ts';
import { portionOf, type Extent } from './extent.ts';
import { extentOf, grindable, sheetOf, type Wet } from './films.ts';
import {
  addedTask,
  coatLink,
  grinders,
  groundDown,
  keptClean,
  keying,
  order,
  splitSteps,
} from './preparing.ts';

/** Tasks and links that a rework adds, in order; `last` is what the next waits for. */
export interface Chain {
  readonly tasks: readonly Task[];
  readonly links: readonly TaskLink[];
  /** Films that stay open until they are covered, and what of it grinds them. */
  readonly covers: WorkEdits['covers'];
}

export const chained = (tasks: readonly Task[]): Chain => ({
  tasks,
  links: tasks.slice(1).map(({ id }, k) => order(`${tasks[k].id}..${id}`, tasks[k].id, id)),
  covers: [],
});

/** What the added tasks have in common. */
export interface Ground {
  readonly yard: Yard;
  readonly workload: Workload;
  readonly part: Part;
  readonly space: string;
  readonly extent: Extent;
  readonly reworkId: string;
  readonly mark: string;
  /** The task whose id theirs are made from. */
  readonly root: (task: Task) => string;
}

/** Square metres that work over a film is about. */
const metres = ({ extent, part }: Ground, film: Task): number =>
  extent.laidM2 ?? extentOf(film, part) ?? 0;

/** Work on a film's place by whoever laid it. */
function work(
  site: Ground,
  film: Wet,
  step: string,
  own: Pick<Task, 'name' | 'workMinutes' | 'air'> &
    Partial<Pick<Task, 'prepares' | 'tools' | 'splittable' | 'sensitiveUntil' | 'coveredBy'>>,
): Task {
  return addedTask(film, {
    id: `${site.root(film)}.${step}-${site.mark}`,
    stepId: step,
    space: film.parts.length === 0 ? film.space : site.space,
    rework: site.reworkId,
    portion: portionOf(site.extent, film, site.part),
    ...own,
  });
}

/** What has not set comes off before anything can be ground. */
export function scraping(site: Ground, film: Wet): Task {
  return work(site, film, SCRAPE_OFF, {
    name: 'Scrape off the resin that has not set, wipe and let air off',
    workMinutes: scrapeMinutes(metres(site, film)),
    air: 'clean',
    prepares: [{ kind: 'wipe', grit: null, mm: null, passes: 2 }],
  });
}

/** Down to the bed, through the films that come off; `hold` is how the next film holds there. */
export function cuttingBack(
  site: Ground,
  film: Wet,
  cut: readonly Wet[],
  bed: Bed,
  hold: Hold | null,
): Task {
  const outermost = cut.at(-1) ?? film;
  const asked = hold?.preparation ?? [];
  const m2 = metres(site, film);
  const { scarfM } = site.extent;
  const structural = cut.some(
    ({ quantity }) => quantity?.kind !== 'coat' && quantity?.kind !== 'fill',
  );
  const scarf = scarfM > 0 ? ' and scarf the edge 12:1' : '';
  const name =
    cut.length === 0 ? 'Key the hardened face' : `Cut back to ${bed.name}${scarf}`.slice(0, 120);
  return work(site, film, cut.length === 0 ? 'key' : CUT_BACK, {
    name,
    workMinutes:
      cut.length === 0
        ? keyMinutes(m2)
        : structural
          ? grindMinutes(m2, scarfM)
          : sandOffMinutes(m2),
    air: 'dusty',
    tools: grinders(site.workload, film),
    prepares:
      cut.length === 0
        ? keying(sheetOf(site.yard, bed.film ?? film), asked)
        : groundDown(sheetOf(site.yard, outermost), asked, !cut.includes(film)),
  });
}

/** Just before the coat; null where the rules ask for nothing after the grinding. */
export function wiping(site: Ground, film: Wet, coat: string, hold: Hold): Task | null {
  const { clean } = splitSteps(hold.preparation);
  if (clean.length === 0) return null;
  return work(site, film, 'wipe', {
    name: clean.some(({ kind }) => kind === 'wipe')
      ? 'Vacuum and wipe just before the coat'
      : 'Take up the dust just before the coat',
    workMinutes: wipeMinutes(metres(site, film)),
    air: 'clean',
    prepares: clean.map(asPreparation),
    ...keptClean(coat),
  });
}

/** The coat onto what was prepared for it: after the last of the chain, by what the rules say of the wait. */
export const onto = (chain: readonly Task[], coat: string, hold: Hold): TaskLink[] =>
  chain.slice(-1).map(({ id }) => coatLink(`${id}..${coat}`, id, coat, hold.preparation));

/** A film laid again on another that was laid again before it: that one hardens and is keyed first. */
export function between(
  site: Ground,
  lower: Wet,
  lowerId: string,
  upper: Wet,
  upperId: string,
): Chain {
  const hold = holdOn(bedOn(site.yard, lower), nextCoat(site.yard, upper));
  const key = cuttingBack(site, upper, [], bedOn(site.yard, lower), hold);
  const wipe = wiping(site, upper, upperId, hold);
  const { tasks, links } = chained(wipe === null ? [key] : [key, wipe]);
  return {
    tasks,
    links: [
      order(`${lowerId}..${key.id}`, lowerId, key.id, grindable(sheetOf(site.yard, lower))),
      ...links,
      ...onto(tasks, upperId, hold),
    ],
    covers: [{ task: lowerId, by: key.id }],
  };
}

/** Turns the part as it was turned before, to get at its other face, and back again. */
export function turning(site: Ground, way: 'over' | 'back'): Task | null {
  const turn = site.workload.tasks
    .filter((task) => task.partId === site.part.id && task.state === 'done' && turnsOver(task))
    .at(-1);
  if (turn === undefined) return null;
  return {
    ...addedTask(turn, {
      id: `${site.root(turn)}.${way}-${site.mark}`,
      stepId: `turn-${way}`,
      name: way === 'over' ? 'Turn it to get at the fault' : 'Turn it back',
      workMinutes: turn.workMinutes,
      air: turn.air,
      space: site.space,
      rework: site.reworkId,
      portion: 1,
      tools: turn.tools,
      splittable: turn.splittable,
    }),
    movesTo: site.space,
    crewMin: turn.crewMin,
    crewMax: turn.crewMax,
    floorMinutes: turn.floorMinutes,
  };
}
