import { addDays, weekdayOf, weekStart as mondayOf } from '#calendar/local-date.ts';
import { inWords } from './moments.ts';
import type { PlanSheet, RankView, SheetBoat, SheetTask } from './sheet.ts';
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

function rankLine(what: string, rank: RankView | null): string[] {
  if (rank === null) return [];
  const gap =
    rank.gapMinutes === 0
      ? 'proved best'
      : `at most ${days(rank.gapMinutes)} above the bound (${(rank.gap * 100).toFixed(1)} %)`;
  return [
    `  ${what}: ${days(rank.value)} weighted, bound ${days(rank.bound)} by ${rank.proof}: ${gap}`,
  ];
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

function filmLine(task: SheetTask, timeZone: string): string[] {
  if (task.film.length === 0 || task.state === 'done') return [];
  const marks = task.film
    .filter(({ milestone }) => milestone !== 'gel' && milestone !== 'open-time')
    .map(
      ({ words, when }) =>
        `${words} ${when === null ? 'not before the horizon' : inWords(when, timeZone)}`,
    );
  const mix =
    task.mix === null
      ? ''
      : `; cup lasts ${String(task.mix.potLifeMinutes)} min at ${String(task.mix.celsius)} °C, ${String(task.mix.batches)} batch${task.mix.batches === 1 ? '' : 'es'}`;
  return [
    `  ${task.name}, ${task.part}, laid ${inWords(task.start, timeZone)}${mix}`,
    `    ${marks.join(', ')}`,
  ];
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
    ...rankLine('Lateness', sheet.lateness),
    ...rankLine('Finishes', sheet.finishes),
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
  lines.push(
    'Cure windows of what is laid',
    ...shown.flatMap((task) => filmLine(task, timeZone)),
    '',
  );
  const taken = sheet.choices.map(
    ({ name, partId, branchName }) => `  ${partId}: ${name} -> ${branchName}`,
  );
  if (taken.length > 0) lines.push('Choices', ...taken, '');
  lines.push(sheet.caution);
  return `${lines.join('\n')}\n`;
}
