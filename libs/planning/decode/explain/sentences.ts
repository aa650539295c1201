/**
 * The one catalogue of sentences about why a task waits and why there is no plan. Facts come in,
 * words go out; nothing here computes.
 */

/** How long a film takes, and where: `low` and `high` in degrees Celsius. */
export interface Cure {
  readonly material: string;
  readonly space: string;
  readonly low: number;
  readonly high: number;
  readonly takes: string;
}

/** Why a material may not be laid at a time; `climate` in plans of before these were told apart. */
export type Refusal = 'cold' | 'warm' | 'damp' | 'preheat' | 'hold' | 'climate';

/** Every kind of cause, with what its sentence names. */
export type Cause =
  | { readonly kind: 'sequence' }
  | { readonly kind: 'order' }
  | { readonly kind: 'wait'; readonly minutes: number }
  | { readonly kind: 'film'; readonly state: string; readonly cure: Cure | null }
  /** `window` is the kind of lag: `bond`, `tack`, `stale`, … */
  | { readonly kind: 'closing'; readonly window: string }
  /** One batch, spread before it goes off in the cup or on the part. */
  | { readonly kind: 'batch'; readonly window: string }
  /** The other way round: `to` opens a window in which `from` has to be done, and is held back. */
  | { readonly kind: 'not-before'; readonly window: string }
  | { readonly kind: 'builder'; readonly person: string }
  | { readonly kind: 'calendar'; readonly person: string }
  | { readonly kind: 'crew' }
  | { readonly kind: 'room'; readonly space: string }
  | { readonly kind: 'tool'; readonly tool: string }
  | { readonly kind: 'hours'; readonly what: string }
  | { readonly kind: 'stock'; readonly stock: string }
  | { readonly kind: 'part'; readonly part: string }
  /** The part is not yet in the space. */
  | { readonly kind: 'place'; readonly part: string; readonly space: string }
  | { readonly kind: 'dust'; readonly space: string }
  /** The task makes the dust, and the film is another's. */
  | { readonly kind: 'open-film'; readonly space: string }
  | { readonly kind: 'surface' }
  | { readonly kind: 'barrier'; readonly barrier: string }
  | { readonly kind: 'hold'; readonly tool: string }
  | { readonly kind: 'boat' }
  | { readonly kind: 'now' }
  | { readonly kind: 'delivery'; readonly delivery: string }
  | { readonly kind: 'word' }
  | {
      readonly kind: 'climate';
      readonly refusal: Refusal;
      readonly material: string;
      readonly space: string;
    }
  | { readonly kind: 'slots'; readonly list: string }
  | { readonly kind: 'fixed' }
  | { readonly kind: 'choice'; readonly choice: string }
  | { readonly kind: 'horizon' }
  /** A plan that could be better: the search put the work there, and nothing holds it there. */
  | { readonly kind: 'loose' };

/** Who waits for whom (null: nobody), and until when by the wall clock. */
export interface Wait {
  readonly to: string;
  readonly from: string | null;
  readonly until: string;
}

/** What a closing window is, after "over": of a film, or of a wiped surface. */
const inside: Readonly<Partial<Record<string, string>>> = {
  bond: 'inside the bond window',
  tack: 'while the resin is tacky',
  'pot-life': 'inside the pot life',
  'open-time': 'inside the open time',
  gel: 'before the resin gels',
  'tack-free': 'before the film is tack-free',
  stale: 'before the wiped surface is stale',
};

export const within = (window: string): string => inside[window] ?? `inside the ${window} window`;

const degrees = ({ low, high }: Cure): string =>
  `${low === high ? '' : `${String(low)} to `}${String(high)} °C`;

const cured = (cure: Cure | null): string =>
  cure === null
    ? ''
    : `, because ${cure.material} in ${cure.space} at ${degrees(cure)} takes ${cure.takes}`;

/** What would be wrong with it. */
const refusals: Readonly<Record<Refusal, string>> = {
  cold: 'it would be too cold before the film has set',
  warm: 'it would be too warm',
  damp: 'it would be too damp',
  preheat: 'the space would not have been warm for long enough',
  hold: 'the space would not be kept warm for long enough after',
  climate: 'it would be too cold or too warm',
};

/** A kind of forbidden start, as a refusal. */
export const refusalOf = (kind: string): Refusal =>
  (Object.keys(refusals) as Refusal[]).find((one) => one === kind) ?? 'climate';

/** Why a material may not be laid now. */
export const refusedNow = (material: string, kind: string): string =>
  `${material} may not be laid now: ${refusals[refusalOf(kind)]}`;

/** Why `to` waits, as one sentence. */
export function waits(cause: Cause, { to, from, until }: Wait): string {
  const by = from === null ? '' : ` by ${from}`;
  switch (cause.kind) {
    case 'sequence':
      return `${to} follows ${from ?? 'the beginning'}, done ${until}`;
    case 'order':
      return `${to} follows ${from ?? 'the beginning'} (${until}), as the foreman has ordered`;
    case 'wait':
      return `${to} waits ${String(cause.minutes)} min after ${from ?? 'the beginning'}, until ${until}`;
    case 'film':
      return `${to} waits for ${from ?? 'a film'} to be ${cause.state} (${until})${cured(cause.cure)}`;
    case 'closing':
      return `${to} has to be over by ${until}, ${within(cause.window)}, after ${from ?? 'the film was laid'}`;
    case 'batch':
      return `${to} has to be over by ${until}, ${within(cause.window)} of what is mixed for it`;
    case 'not-before':
      return `${to} is held back with ${from ?? 'what follows'}, which has to be over ${within(cause.window)}`;
    case 'builder':
      return `${to} waits for ${cause.person}, who is ${from === null ? 'busy' : `on ${from}`} until ${until}`;
    case 'calendar':
      return `${to} waits for ${cause.person}, who is at work from ${until}`;
    case 'crew':
      return `${to} waits for a crew that may do it (${until})`;
    case 'room':
      return `${to} waits for room in ${cause.space}${from === null ? '' : `, taken by ${from}`} until ${until}`;
    case 'tool':
      return `${to} waits for a free ${cause.tool}${from === null ? '' : `, in use by ${from}`} until ${until}`;
    case 'hours':
      return `${to} waits until ${cause.what} may be used (${until})`;
    case 'stock':
      return `${to} would use more than there is of ${cause.stock}`;
    case 'part':
      return `${to} waits for ${cause.part}, taken${by} until ${until}`;
    case 'place':
      return `${to} waits until ${cause.part} is in ${cause.space}${from === null ? '' : `, brought by ${from}`} (${until})`;
    case 'dust':
      return `${to} waits for the dust of ${from ?? 'other work'} to settle in ${cause.space} (${until})`;
    case 'open-film':
      return `${to} makes dust and waits until what ${from ?? 'other work'} left open in ${cause.space} is safe from it (${until})`;
    case 'surface':
      return `${to} waits until what ${from ?? 'other work'} left open may be dusty (${until})`;
    case 'barrier':
      return `${to} waits for ${cause.barrier}, which ${from ?? 'other work'} is at until ${until}`;
    case 'hold':
      return `${to} waits for ${cause.tool}, held${by} until ${until}`;
    case 'boat':
      return `${to} cannot begin before ${until}, when the boat is there`;
    case 'now':
      return `${to} cannot begin before ${until}, the moment from which this plan is made`;
    case 'delivery':
      return `${to} waits for ${cause.delivery}, expected ${until}`;
    case 'word':
      return `${to}: the word is expected ${until}`;
    case 'climate':
      return `${to} waits until ${cause.material} may be laid in ${cause.space} (${until}): before that ${refusals[cause.refusal]}`;
    case 'slots':
      return `${to} waits for a slot of ${cause.list}, ${until}`;
    case 'fixed':
      return `${to} is fixed for ${until}`;
    case 'choice':
      return `${to} waits for the choice ${cause.choice} (${until})`;
    case 'horizon':
      return `${to} cannot begin before the plan does, ${until}`;
    case 'loose':
      return `${to} begins ${until}; nothing was found that holds it there, and a longer search may begin it earlier`;
  }
}

/** What a constraint asks for, as a member of a contradiction; `from` as in `Wait`. */
export function asks(cause: Cause, { to, from }: Omit<Wait, 'until'>, end: string): string {
  const before = from ?? 'what comes before';
  switch (cause.kind) {
    case 'sequence':
      return `${to} comes after ${before}`;
    case 'order':
      return `${to} comes after ${before}, as the foreman has ordered`;
    case 'wait':
      return `${to} comes at least ${String(cause.minutes)} min after ${before}`;
    case 'film':
      return `${to} waits for ${before} to be ${cause.state}`;
    case 'closing':
    case 'not-before':
      return `${to} has to be over ${within(cause.window)} of ${before}`;
    case 'batch':
      return `${to} has to be over ${within(cause.window)} of what is mixed for it`;
    case 'builder':
      return `${cause.person} is in one place at a time`;
    case 'calendar':
      return `${cause.person} works in the shifts and overtime given`;
    case 'crew':
      return `${to} needs a crew of enough builders with the skill, learners beside a senior`;
    case 'room':
      return `${cause.space} has room for so many people`;
    case 'tool':
      return `there are so many of ${cause.tool}`;
    case 'hours':
      return `${cause.what} may be used in its hours only`;
    case 'stock':
      return `there is so much of ${cause.stock}`;
    case 'part':
    case 'place':
      return `${cause.part} is worked on by one crew at a time, where it is`;
    case 'dust':
    case 'open-film':
      return `dust made in ${cause.space} may not reach what is open`;
    case 'surface':
      return `what ${to} leaves open bears no dust until it is safe or covered`;
    case 'barrier':
      return `${cause.barrier} is opened and closed by one crew at a time`;
    case 'hold':
      return `${to} keeps ${cause.tool}`;
    case 'boat':
      return `${to} cannot begin before the boat is there`;
    case 'now':
      return `${to} cannot begin before the moment from which this plan is made`;
    case 'delivery':
      return `${to} waits for ${cause.delivery}`;
    case 'word':
      return `${to} waits for the word`;
    case 'climate':
      return `${cause.material} may not be laid in ${cause.space} by ${to} while ${refusals[cause.refusal]}`;
    case 'slots':
      return `the work that needs ${cause.list} lies in one of its slots`;
    case 'fixed':
      return `${to} is where it happened, or where the foreman has put it`;
    case 'choice':
      return `one of the ways of ${cause.choice} is taken`;
    case 'horizon':
      return `all of it by ${end}, where the plan ends`;
    case 'loose':
      return `${to} is done`;
  }
}

/** The first line of a contradiction. */
export const contradiction = (irreducible: boolean): string =>
  irreducible
    ? 'No plan exists: these contradict each other, and without any one of them there would be a plan.'
    : 'No plan exists. Among these lies the contradiction (whether all of them are needed was not shown):';
