import { addDays, weekdayOf, weekStart as mondayOf } from '#calendar/local-date.ts';
import { inWords } from './moments.ts';
import type { Milestone } from '../yard/materials.ts';
import type { FilmMark, PlanSheet, RankView, SheetBoat, SheetTask, When } from './sheet.ts';
import { weekOf, type WeekRow } from './week.ts';

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

const days = (minutes: number): string => {
  if (minutes < 60) return `${String(minutes)} min`;
  const hours = minutes / 60;
  return hours < 48 ? `${hours.toFixed(1)} h` : `${(hours / 24).toFixed(1)} days`;
};

function boatLines(boat: SheetBoat, timeZone: string): string[] {
  const promised =
    boat.promised === null ? 'nothing promised' : `promised ${inWords(boat.promised, timeZone)}`;
  const late = boat.lateMinutes === 0 ? 'in time' : `LATE by ${days(boat.lateMinutes)}`;
  const gap =
    boat.gapMinutes === 0
      ? 'proved earliest'
      : `gap ${days(boat.gapMinutes)} (proved: not before ${inWords(boat.earliest, timeZone)})`;
  return [
    `  ${boat.refit} (${String(boat.tasks)} tasks)`,
    `    ${promised}, planned ${inWords(boat.finish, timeZone)}${boat.promised === null ? '' : `, ${late}`}; ${gap}`,
  ];
}

const proofs: Readonly<Partial<Record<string, string>>> = {
  'critical-path': 'the critical path',
  'crew-hours': 'crew hours',
  'least-cost': 'the cheapest crews',
  search: 'the search',
};

const whats: Readonly<Record<RankView['rank'], string>> = {
  promises: 'Lateness times weight, all boats',
  finishes: 'Finishes times weight, all boats',
  money: 'Money',
  disturbance: 'Changes against the published plan',
};

const amount = (cents: number, currency: string): string =>
  `${(cents / 100).toFixed(2)} ${currency}`;

function rankLine(view: RankView, currency: string): string {
  const { rank, value, bound, distance, gap, proof } = view;
  const words = (number: number): string => {
    if (rank === 'money') return amount(number, currency);
    return rank === 'disturbance' ? String(number) : days(number);
  };
  const better =
    distance === 0
      ? 'proved best'
      : `at most ${words(distance)} (${(gap * 100).toFixed(1)} %) better is possible`;
  const by = proof === 'none' ? '' : ` by ${proofs[proof] ?? proof}`;
  return `  ${whats[rank]}: ${words(value)}, not below ${words(bound)}${by}: ${better}`;
}

function moneyLines({ money, currency }: PlanSheet): string[] {
  const parts = [
    ['labour', money.labour],
    ['overtime', money.overtime],
    ['slots', money.slots],
    ['materials and hire', money.prices],
  ] as const;
  const spent = parts.filter(([, cents]) => cents > 0);
  if (spent.length === 0) return [];
  return [
    `  of it ${spent.map(([what, cents]) => `${what} ${amount(cents, currency)}`).join(', ')}`,
  ];
}

function slotLines({ tasks, timeZone, currency }: PlanSheet): string[] {
  return tasks.flatMap(({ slot, name, part, boat }) => {
    if (slot === null) return [];
    const book =
      slot.bookBy === null ? 'booked' : `to be booked by ${inWords(slot.bookBy, timeZone)}`;
    const price = slot.price === 0 ? '' : `, ${amount(slot.price, currency)}`;
    return [
      `  ${slot.list} ${inWords(slot.from, timeZone)}, ${book}${price}: ${name}, ${part} of ${boat}`,
    ];
  });
}

function movedLines({ moved, tasks, timeZone }: PlanSheet): string[] {
  return moved.map(({ taskId, published, planned, moved: away, people }) => {
    const task = tasks.find(({ id }) => id === taskId);
    const name = task === undefined ? taskId : `${task.name}, ${task.part} of ${task.boat}`;
    const told = inWords(published, timeZone);
    const time =
      planned === null
        ? `${told}, not done any more`
        : away
          ? `${told} -> ${inWords(planned, timeZone)}`
          : told;
    const who = people === null ? '' : `; ${people.before.join(', ')} -> ${people.now.join(', ')}`;
    return `  ${name}: ${time}${who}`;
  });
}

function rowLine(row: WeekRow): string {
  const pause = row.continues ? ' (goes on later)' : row.continued ? ' (the rest)' : '';
  const others = row.people.length > 1 ? ` [${row.people.join(', ')}]` : '';
  return `    ${row.from}-${row.to}  ${row.task}, ${row.part} of ${row.boat}, ${row.space}${pause}${others}`;
}

function weekLines(sheet: PlanSheet, monday: string): string[] {
  const lines: string[] = [];
  for (const group of weekOf(sheet, { weekStart: monday, by: 'builder' }).groups) {
    lines.push(`  ${group.name}`);
    let date = '';
    for (const row of group.rows) {
      if (row.date !== date) lines.push(`   ${weekdays[weekdayOf(row.date) - 1]} ${row.date}`);
      date = row.date;
      lines.push(rowLine(row));
    }
  }
  return lines;
}

/** What a film has a window of, with the milestones that open and close it. */
const spans = [
  ['tack window', 'tacky-opens', 'tacky-closes'],
  ['bond window', 'bond-opens', 'bond-closes'],
] as const;

/** Not printed by themselves: in a window already, or of the open resin, not of the film. */
const unsaid: ReadonlySet<Milestone> = new Set<Milestone>([
  'gel',
  'open-time',
  ...spans.flatMap(([, opens, closes]) => [opens, closes]),
]);

function spanWords(task: SheetTask, timeZone: string): string[] {
  const at = (mark: FilmMark): string =>
    mark.when === null ? 'after the horizon' : inWords(mark.when, timeZone);
  return spans.flatMap(([what, from, until]) => {
    const opens = task.film.find(({ milestone }) => milestone === from);
    const closes = task.film.find(({ milestone }) => milestone === until);
    if (opens === undefined && closes === undefined) return [];
    if (closes === undefined) return opens === undefined ? [] : [`${what} from ${at(opens)}`];
    if (opens === undefined) return [`${what} until ${at(closes)}`];
    const shut = closes.when !== null && (opens.when === null || closes.when.at < opens.when.at);
    return shut
      ? [`no ${what} for the whole (the first of it is past it before the last of it is in it)`]
      : [`${what} ${at(opens)} to ${at(closes)}`];
  });
}

/** When the next steps may follow, where that is more than one after the other. */
function nextLines(task: SheetTask, starts: ReadonlyMap<string, When>, timeZone: string): string[] {
  return task.windows
    .filter(({ kind }) => kind !== 'sequence' && kind !== 'wait')
    .map(({ toTask, toName, opens, closes }) => {
      const start = starts.get(toTask);
      const parts = [
        opens === null ? '' : ` from ${inWords(opens, timeZone)}`,
        closes === null ? '' : `, over by ${inWords(closes, timeZone)}`,
        start === undefined ? '' : ` (planned ${inWords(start, timeZone)})`,
      ];
      const what = toTask === task.id ? 'one batch' : `next: ${toName}`;
      return `    ${what}${parts.join('')}`;
    });
}

function filmLines(task: SheetTask, starts: ReadonlyMap<string, When>, timeZone: string): string[] {
  const next = nextLines(task, starts, timeZone);
  const closing = task.windows.some(({ closes }) => closes !== null);
  if (task.state === 'done' || (task.film.length === 0 && !closing)) return [];
  const marks = task.film
    .filter(({ milestone }) => !unsaid.has(milestone))
    .map(
      ({ words, when }) =>
        `${words} ${when === null ? 'not before the horizon' : inWords(when, timeZone)}`,
    );
  const mix =
    task.mix === null
      ? ''
      : `; cup lasts ${String(task.mix.potLifeMinutes)} min at ${String(task.mix.celsius)} °C, ${String(task.mix.batches)} batch${task.mix.batches === 1 ? '' : 'es'}`;
  const film = [...spanWords(task, timeZone), ...marks];
  return [
    `  ${task.name}, ${task.part} of ${task.boat}, ${inWords(task.start, timeZone)} to ${inWords(task.finish, timeZone)}${mix}`,
    ...(film.length === 0 ? [] : [`    ${film.join(', ')}`]),
    ...next,
  ];
}

/** What to mind with each material laid, once. */
function cautionLines(tasks: readonly SheetTask[]): string[] {
  const lines = tasks.flatMap(({ material, mix }) =>
    (mix?.cautions ?? []).map((caution) => `  ${material ?? ''}: ${caution}`),
  );
  return [...new Set(lines)].sort();
}

function choiceLines({ choices, tasks }: PlanSheet): string[] {
  return choices.map(({ name, partId, branchName }) => {
    const task = tasks.find((one) => one.partId === partId);
    const part = task === undefined ? partId : `${task.part} of ${task.boat}`;
    return `  ${part}: ${name} -> ${branchName}`;
  });
}

export interface PrintOptions {
  /** A local date in the first week to print; the plan's first week if left out. */
  readonly weekStart?: string | undefined;
  /** How many weeks; 1 if left out. */
  readonly weeks?: number | undefined;
}

/** A plan for people: boats, binding chains, each builder's week, cure windows, the caution. */
export function printSheet(sheet: PlanSheet, options: PrintOptions = {}): string {
  const { timeZone } = sheet;
  const first = mondayOf(options.weekStart ?? sheet.origin.local.slice(0, 10));
  const mondays = Array.from({ length: options.weeks ?? 1 }, (_, k) => addDays(first, 7 * k));
  const last = addDays(first, 7 * mondays.length);
  const lines = [
    `${sheet.yard}: plan from ${inWords(sheet.origin, timeZone)} (times in ${timeZone})`,
    '',
    'Boats',
    ...sheet.boats.flatMap((boat) => boatLines(boat, timeZone)),
    ...sheet.ranks
      // Where nothing is published, or all of it kept, there is nothing to say.
      .filter(({ rank, value }) => rank !== 'disturbance' || value > 0)
      .map((view) => rankLine(view, sheet.currency)),
    ...moneyLines(sheet),
    '',
    'Why the boats take that long (binding chain, from the beginning)',
    ...sheet.boats.flatMap((boat) => [
      `  ${boat.refit}`,
      ...boat.chain.map(({ text }) => `    ${text}`),
    ]),
    '',
  ];
  for (const monday of mondays)
    lines.push(`Week of ${monday}, by builder`, ...weekLines(sheet, monday), '');
  const shown = sheet.tasks.filter(
    ({ start }) => start.local.slice(0, 10) >= first && start.local.slice(0, 10) < last,
  );
  const starts = new Map(sheet.tasks.map(({ id, start }) => [id, start]));
  lines.push(
    'Cure windows of what is laid or wiped (after "next" rounded to the safe side, as planned with)',
    ...shown.flatMap((task) => filmLines(task, starts, timeZone)),
    '',
  );
  const sections = [
    ['Choices', choiceLines(sheet)],
    ['Slots used', slotLines(sheet)],
    ['Moved against the published plan', movedLines(sheet)],
  ] as const;
  for (const [title, found] of sections) if (found.length > 0) lines.push(title, ...found, '');
  const minded = cautionLines(shown);
  if (minded.length > 0) lines.push('Mind', ...minded, '');
  lines.push(sheet.caution);
  return `${lines.join('\n')}\n`;
}
