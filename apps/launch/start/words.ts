import { inWords } from '#planning/decode/reading/moments.ts';
import type { PlanSheet, RankView, SheetBoat } from '#planning/decode/sheet.ts';
import { demoPassword, type DemoSignIn } from './demo.ts';
import type { FirstPlanTimes } from './first-plan.ts';

export function addressWords(url: string): string[] {
  return [
    `Curewright is at ${url}`,
    `  pages of the API  ${url}/api/v1/docs`,
    `  GraphQL           ${url}/graphql`,
  ];
}

export const emptyWords: readonly string[] = [
  'The database is empty. The first account comes from',
  '  npm run account -- add EMAIL NAME',
  'which prints a link for its password. Whoever signs in with it begins a yard there, and is its',
  'foreman (or sends one in: POST /api/v1/yards).',
];

export function signInWords(demo: readonly DemoSignIn[]): string[] {
  if (demo.length === 0) return [];
  const width = Math.max(...demo.map(({ email }) => email.length));
  return [
    `Demo sign-ins (the password of each: ${demoPassword})`,
    ...demo.map(
      ({ email, name, roles }) => `  ${email.padEnd(width)}  ${name}, ${roles.join(' and ')}`,
    ),
  ];
}

export function firstPlanWords({ computingMs, seenMs }: FirstPlanTimes): string {
  const seen = `${seconds(seenMs)} after it was asked for`;
  return computingMs === null
    ? `The first plan was there ${seen}.`
    : `First plan after ${seconds(computingMs)} of computing; ${seen}.`;
}

const seconds = (ms: number): string => `${(ms / 1000).toFixed(1)} s`;

/** Each boat's dates, how far the plan may be from the best, and what holds each boat up. */
export function planWords(sheet: PlanSheet): string[] {
  const { timeZone, boats } = sheet;
  return [
    `Plan of ${sheet.yard} from ${inWords(sheet.origin, timeZone)} (times in ${timeZone})`,
    ...boats.flatMap((boat) => boatWords(boat, timeZone)),
    ...sheet.ranks.flatMap(gapWords),
    ...bookingWords(sheet),
    '',
    'What decides each finish (binding chain, first cause first)',
    ...boats.flatMap(({ refit, chain }) => [
      `  ${refit}`,
      ...chain.map(({ text }) => `    ${text}`),
    ]),
    '',
    `Caution: ${sheet.caution}`,
  ];
}

/** Slots that the plan counts on and that somebody has to book, the most pressing first. */
function bookingWords({ tasks, timeZone }: PlanSheet): string[] {
  const bookings = tasks.flatMap(({ name, part, boat, slot }) =>
    slot?.bookBy ? [{ what: `${name}, ${part} of ${boat}`, slot, by: slot.bookBy }] : [],
  );
  if (bookings.length === 0) return [];
  bookings.sort((a, b) => a.by.at.localeCompare(b.by.at));
  return [
    '',
    'To be booked',
    ...bookings.map(
      ({ what, slot, by }) =>
        `  by ${inWords(by, timeZone)}: ${slot.list}, ${inWords(slot.from, timeZone)} (${what})`,
    ),
  ];
}

function boatWords(boat: SheetBoat, zone: string): string[] {
  const { refit, promised, finish, lateMinutes, earliest, gapMinutes } = boat;
  const due = promised === null ? 'no date promised' : `promised ${inWords(promised, zone)}`;
  const late =
    promised === null ? '' : lateMinutes === 0 ? ', in time' : `, late by ${span(lateMinutes)}`;
  const gap =
    gapMinutes === 0
      ? 'no plan can finish it earlier'
      : `gap to the bound ${span(gapMinutes)} (no plan can finish it before ${inWords(earliest, zone)})`;
  return [`  ${refit}: ${due}, planned finish ${inWords(finish, zone)}${late};`, `    ${gap}`];
}

const ranks: Partial<Record<RankView['rank'], { readonly what: string; readonly best: string }>> = {
  promises: { what: 'all promises together', best: 'as little late as can be' },
  finishes: { what: 'all finishes together, weighted', best: 'proved the best there is' },
};

/** Of the ranks that are minutes; what a plan costs is on its own sheet. */
function gapWords({ rank, distance, gap, proof }: RankView): string[] {
  const words = ranks[rank];
  if (words === undefined) return [];
  const found =
    distance === 0
      ? words.best
      : `at most ${span(distance)} (${(gap * 100).toFixed(1)} %) above the bound proved by ${proof}`;
  return [`  ${words.what}: ${found}`];
}

function span(minutes: number): string {
  if (minutes < 60) return `${String(Math.round(minutes))} min`;
  const hours = minutes / 60;
  return hours < 48 ? `${hours.toFixed(1)} h` : `${(hours / 24).toFixed(1)} days`;
}
