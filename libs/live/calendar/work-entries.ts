import { isoOf } from '#calendar/local-time.ts';
import { rowsOf, shortName, type Rows } from '#planning/decode/reading/rows.ts';
import { CAUTION, type SheetTask } from '#planning/decode/sheet.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { EntryAlarm, KeyedEntry } from './entry.ts';
import { crewOf, sheetTasks, stretchesOf, type Stretch } from './stretches.ts';
import { alarmsOf, type Minded, windowsByTask, windowWords } from './window-alarms.ts';
import type { WorkGround } from './work-ground.ts';

const MINUTE = 60_000;

/** One task with all that its entries say. */
interface Told {
  readonly task: Task;
  readonly sheet: SheetTask | undefined;
  readonly rows: Rows;
  readonly zone: string;
  readonly crew: readonly string[];
  readonly window: Minded | undefined;
}

/** To whole minutes: clients show no seconds, and a second's difference is no news. */
const moment = (ms: number): string => isoOf(Math.round(ms / MINUTE));

function atLeastAMinute({ start, end }: Stretch): { start: string; end: string } {
  const from = Math.round(start / MINUTE);
  return { start: isoOf(from), end: isoOf(Math.max(from + 1, Math.round(end / MINUTE))) };
}

/** Coat two, Main bulkhead (Kittiwake). */
function whatOf({ task, rows }: Told): string {
  const home = rows.parts.get(task.partId);
  return home === undefined ? task.name : `${task.name}, ${home.part.name} (${home.boat.name})`;
}

const openerOf = ({ window, rows }: Told): string =>
  window?.from === null || window?.from === undefined ? 'the film' : shortName(rows, window.from);

function stateWords(told: Told, { real }: Stretch): string {
  const { task } = told;
  if (task.state === 'redo') return 'Done; it has to be done again.';
  if (task.state === 'done') return 'Done.';
  if (real) return task.state === 'working' ? 'Under way.' : 'Begun, and put aside.';
  return task.state === 'waiting' ? 'Planned.' : 'Planned for what is left of it.';
}

function description(told: Told, stretch: Stretch, withWindow: boolean): string {
  const { task, sheet, rows, zone, window } = told;
  const home = rows.parts.get(task.partId);
  const material = task.material === null ? null : rows.materials.get(task.material);
  const people = stretch.crew.map(rows.personName).join(', ');
  return [
    ...(home === undefined ? [] : [`${home.boat.name}, ${home.refit.name}: ${home.part.name}.`]),
    ...(people === '' ? [] : [`Crew: ${people}.`]),
    ...(material ? [`Material: ${material.name}. Weigh by its mix sheet.`] : []),
    ...(task.movesTo === null ? [] : [`Then to ${rows.spaceName(task.movesTo)}.`]),
    stateWords(told, stretch),
    ...(withWindow && window ? windowWords(window, openerOf(told), zone) : []),
    ...(sheet === undefined ? [] : sheet.warnings),
    ...(sheet === undefined ? [] : sheet.cautions.map(({ text }) => text)),
    CAUTION,
  ].join('\n');
}

function entryOf(told: Told, stretch: Stretch, isNext: boolean): KeyedEntry {
  const { task, rows, zone, window } = told;
  const alarms: EntryAlarm[] =
    isNext && window ? alarmsOf(window, whatOf(told), openerOf(told), zone) : [];
  return {
    key: `task:${task.id}:${String(stretch.place)}`,
    entry: {
      summary: whatOf(told),
      description: description(told, stretch, isNext),
      location: rows.spaceName(task.space),
      time: { kind: 'span', ...atLeastAMinute(stretch) },
      busy: true,
      alarms,
    },
  };
}

function* toldOf(ground: WorkGround): Generator<Told & { readonly stretches: Stretch[] }> {
  const { yard, workload, lives, sheet } = ground;
  const rows = rowsOf(yard, workload);
  const planned = sheetTasks(sheet);
  const windows = windowsByTask(ground);
  for (const task of workload.tasks) {
    const [life, own] = [lives.get(task.id), planned.get(task.id)];
    const begins = task.state === 'waiting' || task.state === 'paused';
    yield {
      task,
      sheet: own,
      rows,
      zone: yard.timeZone,
      crew: crewOf(task, life, own),
      window: begins ? windows.get(task.id) : undefined,
      stretches: stretchesOf(task, life, own),
    };
  }
}

/** A window is minded where the work, or what is left of it, begins. */
const entriesOf = (
  told: Told,
  stretches: readonly Stretch[],
  wanted: (stretch: Stretch) => boolean,
): KeyedEntry[] => {
  const next = stretches.find(({ real }) => !real);
  return stretches.filter(wanted).map((stretch) => entryOf(told, stretch, stretch === next));
};

/** What one builder did, does and is to do, with alarms at the windows of what is to be done. */
export function builderEntries(ground: WorkGround, memberId: string): KeyedEntry[] {
  return [...toldOf(ground)].flatMap(({ stretches, ...told }) =>
    entriesOf(told, stretches, ({ crew }) => crew.includes(memberId)),
  );
}

/**
 * What takes a space, and films in it that dust must not reach: nothing dusty may be done there
 * meanwhile. A space's calendar rings for nobody.
 */
export function spaceEntries(ground: WorkGround, spaceId: string): KeyedEntry[] {
  return [...toldOf(ground)].flatMap(({ stretches, ...told }) => {
    if (told.task.space !== spaceId) return [];
    const work = entriesOf(told, stretches, () => true).map(({ key, entry }) => ({
      key,
      entry: { ...entry, alarms: [] },
    }));
    return [...work, ...filmEntry(told, stretches)];
  });
}

/** From when the film is laid until it is dust-safe, as the plan expects it. */
function filmEntry(told: Told, stretches: readonly Stretch[]): KeyedEntry[] {
  const { task, sheet, rows } = told;
  const safe = sheet?.film.find(({ milestone }) => milestone === 'dust-safe')?.when;
  const laid = Math.max(...stretches.map(({ end }) => end));
  if (!sheet || !safe || task.state === 'redo' || task.movesTo !== null || laid === -Infinity) {
    return [];
  }
  // A film that was laid at another time than planned takes as long as the plan gave it.
  const end = laid + Date.parse(safe.at) - Date.parse(sheet.finish.at);
  if (end <= laid) return [];
  return [
    {
      key: `film:${task.id}`,
      entry: {
        summary: `No dust: ${whatOf(told)} cures`,
        description: `Until the film is dust-safe, as planned.\n${CAUTION}`,
        location: rows.spaceName(task.space),
        time: { kind: 'span', start: moment(laid), end: moment(end) },
        busy: true,
        alarms: [],
      },
    },
  ];
}
