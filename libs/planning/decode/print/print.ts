import { addDays, weekdayOf, weekStart as mondayOf } from '#calendar/local-date.ts';
import { inWords } from '../reading/moments.ts';
import { filmLines, touchLines } from './films.ts';
import { cautionLines, mindWords, mixLines, numbered } from './mix.ts';
import { shoppingLines } from './shopping.ts';
import type { PlanSheet, RankView, SheetBoat, SheetTask } from '../sheet.ts';
import { weekOf, type WeekRow } from '../week.ts';

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
  const words = spent.map(([what, cents]) => `${what} ${amount(cents, currency)}`).join(', ');
  return [
    ...(spent.length === 0 ? [] : [`  of it ${words}`]),
    ...(money.climate === 0
      ? []
      : [`  Heaters, tents and dehumidifiers besides: ${amount(money.climate, currency)}`]),
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

/** The cautions of work that has no mix sheet to carry them stand with the row itself. */
function rowLine(row: WeekRow, minds: ReadonlyMap<string, string>): string {
  const pause = row.continues ? ' (goes on later)' : row.continued ? ' (the rest)' : '';
  const others = row.people.length > 1 ? ` [${row.people.join(', ')}]` : '';
  const mind = row.continued ? '' : (minds.get(row.taskId) ?? '');
  return `    ${row.from}-${row.to}  ${row.task}, ${row.part} of ${row.boat}, ${row.space}${pause}${others}${mind === '' ? '' : `; ${mind}`}`;
}

function weekLines(sheet: PlanSheet, monday: string, minds: ReadonlyMap<string, string>): string[] {
  const lines: string[] = [];
  for (const group of weekOf(sheet, { weekStart: monday, by: 'builder' }).groups) {
    lines.push(`  ${group.name}`);
    let date = '';
    for (const row of group.rows) {
      if (row.date !== date) lines.push(`   ${weekdays[weekdayOf(row.date) - 1]} ${row.date}`);
      date = row.date;
      lines.push(rowLine(row, minds));
    }
  }
  return lines;
}

/** What has to be seen to first, and is not in the plan; also of work whose mix sheet is not printed yet. */
function lookLines(tasks: readonly SheetTask[], timeZone: string): string[] {
  return tasks.flatMap(({ name, part, boat, start, warnings, bond, state }) => {
    const lacking = state === 'waiting' ? (bond?.preparation ?? []) : [];
    const prepare =
      lacking.length === 0 ? [] : [`not in the plan, and to be done first: ${lacking.join('; ')}`];
    return [...warnings, ...prepare].map(
      (text) => `  ${name}, ${part} of ${boat}, ${inWords(start, timeZone)}: ${text}`,
    );
  });
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
  /** On how many working days with wet work, of those weeks, mix sheets are printed; 2 if left out. */
  readonly mixDays?: number | undefined;
}

const MIX_DAYS = 2;

/** The tasks to be mixed for on the first days that have any. */
function mixedOn(tasks: readonly SheetTask[], days: number): SheetTask[] {
  const dateOf = ({ start }: SheetTask): string => start.local.slice(0, 10);
  const mixed = tasks.filter(({ mix }) => mix !== null);
  const dates = [...new Set(mixed.map(dateOf))].sort().slice(0, days);
  return mixed.filter((task) => dates.includes(dateOf(task)));
}

/**
 * A plan for people: boats, binding chains, each builder's week, cure windows, mix sheets, the
 * shopping list, and the cautions of all work shown, which no option leaves out.
 */
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
  const shown = sheet.tasks.filter(
    ({ start, finish }) => finish.local.slice(0, 10) >= first && start.local.slice(0, 10) < last,
  );
  const numbers = numbered(shown);
  const mixed = mixedOn(shown, options.mixDays ?? MIX_DAYS);
  const minds = new Map(
    shown
      .filter((task) => !mixed.includes(task))
      .map((task) => [task.id, mindWords(task, numbers)] as const),
  );
  for (const monday of mondays)
    lines.push(`Week of ${monday}, by builder`, ...weekLines(sheet, monday, minds), '');
  const starts = new Map(sheet.tasks.map(({ id, start }) => [id, start]));
  lines.push(
    'Cure windows of what is laid or wiped, as the plan keeps to them (in brackets, where what is known of it allows it to be otherwise: the other end)',
    ...shown.flatMap((task) => filmLines(task, starts, timeZone)),
    '',
  );
  if (mixed.length > 0) {
    const title =
      'Mix sheets (grams on the scales; each cup is mixed when the one before is spread)';
    lines.push(title, ...mixed.flatMap((task) => mixLines(task, numbers, timeZone)), '');
  }
  const sections = [
    ['To be looked at before work begins', lookLines(shown, timeZone)],
    ['How to tell by hand', touchLines(shown)],
    ['Choices', choiceLines(sheet)],
    ['Slots used', slotLines(sheet)],
    ['Moved against the published plan', movedLines(sheet)],
    [
      'Shopping list (fabric as it is laid: add what you cut away)',
      shoppingLines(sheet, first, last),
    ],
    ['Cautions', cautionLines(shown, numbers)],
  ] as const;
  for (const [title, found] of sections) if (found.length > 0) lines.push(title, ...found, '');
  lines.push(sheet.caution);
  return `${lines.join('\n')}\n`;
}
