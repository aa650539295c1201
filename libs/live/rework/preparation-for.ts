import { takenTo } from '#planning/compile/site/parts.ts';
import { DomainError } from '#kernel/error.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { noEdits } from '../edits/edits.ts';
import { bedOn, holdOn, nextCoat } from './bed.ts';
import { rootOf } from './copies.ts';
import { cutTapeMinutes, wipeMinutes } from './efforts.ts';
import { extentOf, grindable, isWet, partOf, sheetOf, type Wet } from './films.ts';
import { chained, cuttingBack, onto, wiping, type Chain, type Ground } from './ground-up.ts';
import { addedTask, grinders, keptClean, order } from './preparing.ts';
import { markOf, type Reworked } from './rework.ts';

interface MissedInput {
  readonly yard: Yard;
  readonly workload: Workload;
  /** Links with a closing that has passed, or will, all to one task that waits. */
  readonly linkIds: readonly string[];
  readonly reworkId: string;
  /** They are still open, but nobody can come in time. */
  readonly ahead?: boolean | undefined;
}

interface Missed {
  readonly late: Task;
  /** Each with the task whose window it was. */
  readonly shut: readonly { readonly link: TaskLink; readonly from: Task }[];
}

function missedOf({ workload, linkIds }: MissedInput): Missed {
  const byId = new Map(workload.tasks.map((task) => [task.id, task]));
  const links = new Map(workload.links.map((link) => [link.id, link]));
  const shut = linkIds.flatMap((id) => {
    const link = links.get(id);
    const from = byId.get(link?.from ?? '');
    return link === undefined || from === undefined ? [] : [{ link, from }];
  });
  const late = byId.get(shut.at(0)?.link.to ?? '');
  if (late === undefined || shut.some(({ link }) => link.to !== late.id))
    throw new DomainError('record.missing', `There are no links ${linkIds.join(', ')} to one task`);
  return { late, shut };
}

function groundOf({ yard, workload, reworkId }: MissedInput, late: Task): Ground {
  const part = partOf(yard, late.partId);
  const byId = new Map(workload.tasks.map((one) => [one.id, one]));
  return {
    yard,
    workload,
    part,
    space: takenTo(workload.tasks).get(part.id) ?? part.space,
    extent: { faultM2: null, laidM2: null, scarfM: 0 },
    reworkId,
    mark: markOf(reworkId),
    root: (one) => rootOf(one, byId),
  };
}

/** The film has hardened, or will: abraded once it can be, and wiped just before the coat. */
function keyed(site: Ground, film: Wet, late: Wet): Chain & { readonly reason: string } {
  const bed = bedOn(site.yard, film);
  const hold = holdOn(bed, nextCoat(site.yard, late));
  // Whoever lays the coat prepares for it.
  const key = { ...cuttingBack(site, late, [], bed, hold), portion: late.portion };
  const wipe = wiping(site, late, late.id, hold);
  const { tasks, links } = chained(wipe === null ? [key] : [key, wipe]);
  const { answer, waits } = hold;
  return {
    tasks,
    links: [
      order(`${film.id}..${key.id}`, film.id, key.id, grindable(sheetOf(site.yard, film))),
      ...links,
      ...onto(tasks, late.id, hold),
      ...(waits === null
        ? []
        : [order(`${film.id}..${late.id}-${site.mark}`, film.id, late.id, waits)]),
    ],
    covers: [{ task: film.id, by: key.id }],
    reason: `${answer.reason} [${answer.source}]`,
  };
}

/** What was wiped has gone stale, and is wiped once more; the window is as it was. */
function wiped(site: Ground, from: Task, link: TaskLink, late: Task): Chain {
  const prepares = from.prepares.filter(({ kind }) => kind === 'extract' || kind === 'wipe');
  const again = addedTask(from, {
    id: `${site.root(from)}.wipe-${site.mark}`,
    stepId: 'wipe',
    name: 'Vacuum and wipe again just before the coat',
    workMinutes: wipeMinutes((extentOf(late, site.part) ?? 0) * late.portion),
    air: 'clean',
    space: late.space,
    rework: site.reworkId,
    portion: late.portion,
    prepares:
      prepares.length > 0
        ? prepares
        : [
            { kind: 'extract', grit: null, mm: null, passes: 1 },
            { kind: 'wipe', grit: null, mm: null, passes: 1 },
          ],
    ...keptClean(late.id),
  });
  const flashedOff = link.opens ?? { kind: 'after' as const, minutes: 15 };
  return {
    tasks: [again],
    links: [
      order(`${from.id}..${again.id}`, from.id, again.id),
      {
        ...link,
        id: `${link.id}.again-${site.mark}`,
        from: again.id,
        opens: flashedOff,
        setBy: 'procedure',
      },
    ],
    covers: [],
  };
}

/** Tape or fabric that should have come off while the film yielded. */
function cutFree(site: Ground, film: Wet, late: Task): Chain {
  const cut = addedTask(late, {
    id: `${site.root(late)}.cut-free-${site.mark}`,
    stepId: 'cut-free',
    name: 'Cut the hardened film along the edge, and dress it',
    workMinutes: cutTapeMinutes(site.part.edgeM * late.portion),
    air: 'dusty',
    space: late.space,
    rework: site.reworkId,
    portion: late.portion,
    tools: grinders(site.workload, late),
  });
  return {
    tasks: [cut],
    links: [
      order(`${film.id}..${cut.id}`, film.id, cut.id, grindable(sheetOf(site.yard, film))),
      order(`${cut.id}..${late.id}`, cut.id, late.id),
    ],
    covers: [{ task: film.id, by: cut.id }],
  };
}

const GRITLESS: Readonly<Record<string, string>> = {
  dewax: 'wiped with solvent until no wax or tack is left',
  wash: 'washed with water',
  extract: 'vacuumed',
  wipe: 'wiped',
  peel: 'freed of its peel ply',
};

/** `washed with water, abraded with 80 grit, vacuumed and wiped`. */
export function preparedWords(tasks: readonly Task[]): string {
  const steps = tasks
    .flatMap(({ prepares }) => prepares)
    .map(({ kind, grit }) =>
      kind === 'abrade' ? `abraded with ${String(grit ?? 80)} grit` : (GRITLESS[kind] ?? kind),
    );
  const last = steps.at(-1);
  if (last === undefined) return 'cut free along its edge, and the edge dressed';
  return steps.length === 1 ? last : `${steps.slice(0, -1).join(', ')} and ${last}`;
}

/**
 * What a late task needs now that windows before it have shut: a film that can no longer be bonded to
 * as it is hardens and is keyed and wiped, a surface that went stale is wiped again, what should have
 * come off is cut free. The closings go; the order stays. Throws record.missing for links that there
 * are not or that lead to several tasks.
 */
export function preparationFor(input: MissedInput): Reworked {
  const { late, shut } = missedOf(input);
  const site = groundOf(input, late);
  const films = shut
    .flatMap(({ from }) => (isWet(from) ? [from] : []))
    .sort((a, b) => Date.parse(a.finishedAt ?? '') - Date.parse(b.finishedAt ?? ''));
  const film = films.at(-1);
  const dry = shut.find(({ from }) => !isWet(from));
  const coat = isWet(late) && film !== undefined ? keyed(site, film, late) : null;
  const chain: Chain =
    coat ??
    (film !== undefined
      ? cutFree(site, film, late)
      : dry === undefined
        ? { tasks: [], links: [], covers: [] }
        : wiped(site, dry.from, dry.link, late));
  const replaced = new Set(chain.links.map(({ id }) => id));
  const plain = shut
    .map(({ link }) => ({ ...link, id: `${link.id}.again-${site.mark}`, closes: null }))
    .filter(({ id }) => !replaced.has(id));
  const windows = shut.map(({ from }) => `“${from.name}”`).join(' and ');
  const part = site.part.name;
  const window = `window for “${late.name}” on ${part} after ${windows}`;
  const lost = input.ahead === true ? `No plan keeps the ${window}` : `The ${window} has shut`;
  const what = preparedWords(chain.tasks);
  const why = coat === null ? '[common practice, no source]' : coat.reason;
  return {
    edits: {
      ...noEdits,
      addTasks: chain.tasks,
      addLinks: [...chain.links, ...plain],
      covers: chain.covers,
      removeLinks: shut.map(({ link }) => link.id),
    },
    words: `${lost}: first it has to be ${what}. ${why}`,
  };
}
