import type { Milestone } from '../../yard/materials.ts';
import { inWords, laterInWords, spanInWords } from '../reading/moments.ts';
import { isOver } from '../../workload/standing.ts';
import type { FilmMark, SheetTask, SheetWindow, When } from '../sheet.ts';

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

const sameMoment = (a: When | null, b: When | null): boolean => a?.at === b?.at;

/** The other end of a mark's band, which the plan does not keep to; null where both are one. */
function otherEnd({ when, earliest, latest }: FilmMark): { readonly at: When | null } | null {
  const other = sameMoment(when, earliest) ? latest : earliest;
  return sameMoment(when, other) ? null : { at: other };
}

/** A moment of a film; the time alone where it is on the day of the one said before it. */
function momentWords(when: When | null, before: When | null, timeZone: string): string {
  if (when === null) return 'after the horizon';
  return before === null ? inWords(when, timeZone) : laterInWords(before, when, timeZone);
}

/** `sandable Tue 1 Dec 10:36 (02:53)`: the moment kept to, in brackets the other end. */
function markWords(mark: FilmMark, timeZone: string): string {
  const other = otherEnd(mark);
  const rest = other === null ? '' : ` (${momentWords(other.at, mark.when, timeZone)})`;
  return `${mark.words} ${momentWords(mark.when, null, timeZone)}${rest}`;
}

/** A window from the latest opening to the earliest closing; in brackets, the widest it may be. */
function windowWords(what: string, opens: FilmMark, closes: FilmMark, timeZone: string): string {
  const [from, until] = [otherEnd(opens), otherEnd(closes)];
  const [first, last] = [
    from === null ? opens.when : from.at,
    until === null ? closes.when : until.at,
  ];
  const widest =
    from === null && until === null
      ? ''
      : ` (${momentWords(first, opens.when, timeZone)} to ${momentWords(last, first, timeZone)})`;
  const shut = closes.when !== null && (opens.when === null || closes.when.at < opens.when.at);
  return shut
    ? `no ${what} for the whole: the first of it is past it before the last of it is in it${widest}`
    : `${what} ${momentWords(opens.when, null, timeZone)} to ${momentWords(closes.when, opens.when, timeZone)}${widest}`;
}

function spanWords(task: SheetTask, timeZone: string): string[] {
  return spans.flatMap(([what, from, until]) => {
    const opens = task.film.find(({ milestone }) => milestone === from);
    const closes = task.film.find(({ milestone }) => milestone === until);
    if (opens !== undefined && closes !== undefined)
      return [windowWords(what, opens, closes, timeZone)];
    return [opens, closes].flatMap((mark) =>
      mark === undefined ? [] : [markWords(mark, timeZone)],
    );
  });
}

/** The milestones that open and close a window, by what the link is called; else it is one itself. */
const openers: Readonly<Partial<Record<string, Milestone>>> = {
  tack: 'tacky-opens',
  bond: 'bond-opens',
  sand: 'sandable',
  handle: 'handle',
  cure: 'cured',
};
const closers: Readonly<Partial<Record<string, Milestone>>> = {
  tack: 'tacky-closes',
  bond: 'bond-closes',
};

/** A table of cure times is whole minutes on the safe side of the film's own moment. */
const ROUNDED = 2 * 60_000;

const near = (a: When | null, b: When): boolean =>
  a !== null && Math.abs(Date.parse(a.at) - Date.parse(b.at)) <= ROUNDED;

/** How a builder finds out by hand that a window is open, and that it is over. */
function touchWords({ film }: SheetTask, { kind, opens, closes }: SheetWindow): string {
  const test = (milestone: string): string | null =>
    film.find((mark) => mark.milestone === milestone)?.touchTest ?? null;
  // With an end, a window is called by that end: what opens it is then told by its moment.
  const opener =
    closes === null
      ? (openers[kind] ?? kind)
      : film.find(({ latest }) => opens !== null && near(latest, opens))?.milestone;
  const ready = opens === null || opener === undefined ? null : test(opener);
  const over = closes === null ? null : test(closers[kind] ?? kind);
  return `${ready === null ? '' : `; by hand: ${ready}`}${over === null ? '' : `; too late once: ${over}`}`;
}

/** When the next steps may follow, where that is more than one after the other. */
function nextLines(task: SheetTask, starts: ReadonlyMap<string, When>, timeZone: string): string[] {
  return task.windows
    .filter(({ kind }) => kind !== 'sequence' && kind !== 'wait')
    .map((window) => {
      const { toTask, toName, opens, closes } = window;
      if (toTask === task.id) {
        const by = closes === null ? '' : ` to be spread by ${inWords(closes, timeZone)}`;
        return `    one batch${by} (planned to be done at ${inWords(task.finish, timeZone)})`;
      }
      const start = starts.get(toTask);
      const parts = [
        opens === null ? '' : ` from ${inWords(opens, timeZone)}`,
        closes === null ? '' : `, over by ${inWords(closes, timeZone)}`,
        start === undefined ? '' : ` (planned ${inWords(start, timeZone)})`,
        touchWords(task, window),
      ];
      return `    next: ${toName}${parts.join('')}`;
    });
}

/** What is known of a cup: how long it lasts, and of how many. */
function cupWords({ mix }: SheetTask): string {
  if (mix === null || mix.potLifeMinutes === null) return '';
  const { length } = mix.cups;
  const cups = length === 0 ? '' : `, ${String(length)} ${length === 1 ? 'cup' : 'cups'}`;
  return `; cup lasts ${String(mix.potLifeMinutes)} min at ${String(mix.celsius)} °C${cups}`;
}

/** A task's film, and what follows it. */
export function filmLines(
  task: SheetTask,
  starts: ReadonlyMap<string, When>,
  timeZone: string,
): string[] {
  const next = nextLines(task, starts, timeZone);
  const closing = task.windows.some(({ closes }) => closes !== null);
  if (isOver(task) || (task.film.length === 0 && !closing)) return [];
  const marks = task.film
    .filter(({ milestone }) => !unsaid.has(milestone))
    .map((mark) => markWords(mark, timeZone));
  const film = [...spanWords(task, timeZone), ...marks];
  return [
    `  ${task.name}, ${task.part} of ${task.boat}, ${spanInWords(task.start, task.finish, timeZone)}${cupWords(task)}`,
    ...(film.length === 0 ? [] : [`    ${film.join(', ')}`]),
    ...next,
  ];
}

/** How each material's milestones are told by hand, once; those told alike together. */
export function touchLines(tasks: readonly SheetTask[]): string[] {
  const tests = new Map<string, Map<string, string>>();
  for (const { material, film } of tasks) {
    if (material === null) continue;
    const own = tests.get(material) ?? new Map<string, string>();
    tests.set(material, own);
    for (const { words, touchTest } of film) if (touchTest !== null) own.set(words, touchTest);
  }
  const alike = new Map<string, string[]>();
  for (const [material, own] of tests) {
    if (own.size === 0) continue;
    const lines = [...own].map(([words, test]) => `    ${words}: ${test}`);
    const key = [...lines].sort().join('\n');
    const same = alike.get(key);
    if (same === undefined) alike.set(key, [material, ...lines]);
    else same[0] = `${same[0]}; ${material}`;
  }
  return [...alike.values()].flatMap(([materials, ...lines]) => [`  ${materials}`, ...lines]);
}
