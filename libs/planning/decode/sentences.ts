/**
 * The one catalogue of sentences about why a task waits. Facts come in, words go out;
 * nothing here computes.
 */
export interface WaitFacts {
  /** The task that waits, and the one it waits for (null: the beginning). */
  readonly to: string;
  readonly from: string | null;
  /** Wall time until which it waits. */
  readonly until: string;
}

export const sentences = {
  sequence: ({ to, from, until }: WaitFacts): string =>
    `${to} follows ${from ?? 'the beginning'}, done ${until}`,
  wait: ({ to, from, until }: WaitFacts, minutes: number): string =>
    `${to} waits ${String(minutes)} min after ${from ?? 'the beginning'}, until ${until}`,
  film: ({ to, from, until }: WaitFacts, state: string, because: string): string =>
    `${to} waits for ${from ?? 'a film'} to be ${state} (${until}), because ${because}`,
  cures: (material: string, space: string, low: number, high: number, hours: string): string =>
    `${material} in ${space} at ${low === high ? '' : `${String(low)} to `}${String(high)} °C takes ${hours}`,
  closing: ({ to, from, until }: WaitFacts, window: string): string =>
    `${to} has to be over by ${until}, ${window}, after ${from ?? 'the film was laid'}`,
  /** The other way round: `to` opens a window in which `from` has to be done, and `from` is held back. */
  notBefore: ({ to, from }: WaitFacts, window: string): string =>
    `${to} is held back with ${from ?? 'what follows'}, which has to be over ${window}`,
  /** What a closing window is, after "over": of a film, or of a wiped surface. */
  inside: {
    bond: 'inside the bond window',
    tack: 'while the resin is tacky',
    'open-time': 'inside the open time',
    'tack-free': 'before the film is tack-free',
    stale: 'before the wiped surface is stale',
  } as Readonly<Partial<Record<string, string>>>,
  builder: ({ to, from, until }: WaitFacts, who: string): string =>
    `${to} waits for ${who}, who is ${from === null ? 'busy' : `on ${from}`} until ${until}`,
  room: ({ to, from, until }: WaitFacts, space: string): string =>
    `${to} waits for room in ${space}${from === null ? '' : `, taken by ${from}`} until ${until}`,
  tool: ({ to, from, until }: WaitFacts, tool: string): string =>
    `${to} waits for a free ${tool}${from === null ? '' : `, in use by ${from}`} until ${until}`,
  dust: ({ to, from, until }: WaitFacts, space: string): string =>
    `${to} waits for the dust of ${from ?? 'other work'} to settle in ${space} (${until})`,
  openFilm: ({ to, from, until }: WaitFacts, space: string): string =>
    `${to} makes dust and waits until the film of ${from ?? 'other work'} in ${space} is safe from it (${until})`,
  calendar: ({ to, until }: WaitFacts): string =>
    `${to} waits for its crew’s working time (${until})`,
  forbidden: ({ to, until }: WaitFacts, material: string, space: string): string =>
    `${to} waits until ${material} may be laid in ${space} (${until}): before that it would be too cold or too warm`,
  release: ({ to, until }: WaitFacts): string =>
    `${to} cannot begin before ${until}, when the boat is there`,
  now: ({ to, until }: WaitFacts): string =>
    `${to} cannot begin before ${until}, the moment from which this plan is made`,
  fixed: ({ to, until }: WaitFacts): string => `${to} is fixed for ${until}`,
  /** A plan that could be better: the search put the work there, and moving it alone runs into nothing. */
  loose: ({ to, until }: WaitFacts): string =>
    `${to} begins ${until}; nothing was found that holds it there, and a longer search may begin it earlier`,
} as const;
