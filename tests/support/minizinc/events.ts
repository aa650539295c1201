/**
 * What a solve says, line by line; `at` in seconds from the start of its process, so that what
 * was said before a process had to be ended counts too.
 */
export type Event =
  /** The modules are loaded. */
  | { readonly kind: 'ready'; readonly at: number }
  /** The model is flattened. */
  | { readonly kind: 'flat'; readonly at: number }
  | { readonly kind: 'solution'; readonly at: number; readonly output: string }
  | { readonly kind: 'status'; readonly at: number; readonly status: string }
  | { readonly kind: 'failure'; readonly at: number; readonly message: string }
  | { readonly kind: 'exit'; readonly at: number };

/** How the line begins by which a model is told to be flat. */
export const FLAT_EVENT = '{"kind":"flat"';

/** Seconds from the start of the process; null where it did not come to that. */
export interface Solve {
  /** As MiniZinc words it: OPTIMAL_SOLUTION, SATISFIED, UNSATISFIABLE, UNKNOWN, … */
  readonly status: string;
  readonly readyAt: number | null;
  readonly flatAt: number | null;
  readonly solutions: readonly { readonly at: number; readonly output: string }[];
  /** When the status was told. */
  readonly statusAt: number | null;
  readonly endAt: number | null;
  readonly failure: string | null;
}

/** Reads the lines; a last one that was cut off is left out. */
export function readEvents(text: string): Solve {
  const events = text.split('\n').flatMap((line): Event[] => {
    try {
      return line.startsWith('{') ? [JSON.parse(line) as Event] : [];
    } catch {
      return [];
    }
  });
  const of = <K extends Event['kind']>(kind: K): Extract<Event, { kind: K }>[] =>
    events.filter((event): event is Extract<Event, { kind: K }> => event.kind === kind);
  const status = of('status').at(-1);
  return {
    status: status?.status ?? 'UNKNOWN',
    readyAt: of('ready').at(0)?.at ?? null,
    flatAt: of('flat').at(0)?.at ?? null,
    solutions: of('solution').map(({ at, output }) => ({ at, output })),
    statusAt: status?.at ?? null,
    endAt: of('exit').at(0)?.at ?? null,
    failure: of('failure').at(0)?.message ?? null,
  };
}
