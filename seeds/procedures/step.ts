import type { YardInput } from '#planning/yard/yard.ts';

export type ProcedureInput = NonNullable<YardInput['procedures']>[number];
type StepInput = ProcedureInput['steps'][number];
type LinkInput = ProcedureInput['links'][number];
export type HoldInput = NonNullable<StepInput['holds']>[number];
type MomentInput = NonNullable<LinkInput['opens']>;
type QuantityInput = NonNullable<StepInput['quantity']>;
type PreparationInput = NonNullable<StepInput['prepares']>[number];
type Kind = PreparationInput['kind'];

/** No measured productivity of boat repair was found in print; a yard puts its own numbers here. */
const PRACTICE = 'common practice, no source';

interface Size {
  readonly fixed?: number;
  readonly perM2?: number;
  readonly perEdgeM?: number;
  readonly perJointM?: number;
}

export type Rest = Partial<Omit<StepInput, 'id' | 'name' | 'effort'>>;

const step = (
  id: string,
  name: string,
  skill: string,
  size: Size,
  base: Omit<StepInput, 'id' | 'name' | 'effort' | 'skill'>,
  rest: Rest,
): StepInput => ({
  id,
  name,
  effort: { ...size, source: PRACTICE },
  skill,
  ...base,
  ...rest,
});

/** One of a tool, while the work goes on. */
export const one = (tool: string): { tool: string; count: number } => ({ tool, count: 1 });

/** Work that makes no dust and opens no film. */
export const clean = (
  id: string,
  name: string,
  skill: string,
  size: Size,
  rest: Rest = {},
): StepInput =>
  step(id, name, skill, size, { crewMin: 1, crewMax: 2, air: 'clean', splittable: true }, rest);

/** Cutting, grinding, sanding, with an extractor at the tool; vacuuming up is in the minutes. */
export const dusty = (
  id: string,
  name: string,
  skill: string,
  size: Size,
  rest: Rest = {},
): StepInput =>
  step(
    id,
    name,
    skill,
    size,
    { crewMin: 1, crewMax: 2, air: 'dusty', splittable: true, tools: [one('extractor')] },
    rest,
  );

/** What a step makes ready, in that order; abrading to a grit. */
export const prepares = (
  ...steps: readonly (Kind | number)[]
): Required<Pick<Rest, 'prepares'>> => ({
  prepares: steps.map((step) =>
    typeof step === 'number' ? { kind: 'abrade', grit: step } : { kind: step },
  ),
});

/** What stays in cups, rollers and brushes: common practice, no source. */
const WASTE = 10;

/** What a wet step mixes. */
export const mixes = (
  quantity: QuantityInput,
  wastePercent = WASTE,
): Required<Pick<Rest, 'quantity'>> => ({ quantity: { ...quantity, wastePercent } });

/** Minutes for brushes, rollers and cups after anything wet: common practice, no source. */
const CLEAN_DOWN = 10;

/** Anything that lays a film. */
export const wet = (
  id: string,
  name: string,
  skill: string,
  material: string,
  size: Size,
  rest: Rest = {},
): StepInput =>
  step(
    id,
    name,
    skill,
    size,
    {
      crewMin: 1,
      crewMax: 2,
      air: 'wet',
      material,
      splittable: false,
      breaks: 'relieved',
      cleanDownMinutes: CLEAN_DOWN,
    },
    rest,
  );

/** Work that waits for somebody outside: a word, or a slot. */
export const holdPoint = (id: string, name: string, rest: Rest = {}): StepInput => ({
  id,
  name,
  effort: { source: PRACTICE },
  skill: null,
  crewMin: 0,
  crewMax: 0,
  air: 'clean',
  splittable: false,
  ...rest,
});

/** Vacuumed and wiped: takes no dust until it is coated, and is stale after some hours anyhow. */
export const keptFor = (...coats: string[]): Rest => ({
  ...prepares('extract', 'wipe'),
  sensitiveUntil: after(STALE),
  coveredBy: coats,
});

export const after = (minutes: number): MomentInput => ({ kind: 'after', minutes });
export const film = (
  milestone: Extract<MomentInput, { kind: 'milestone' }>['milestone'],
): MomentInput => ({ kind: 'milestone', milestone });

/** `to` after `from`: at once, or when `opens`; no later than `closes`. */
export const link = (
  from: string,
  to: string,
  opens: MomentInput | null = after(0),
  closes: MomentInput | null = null,
  sweep: 'unknown' | 'same' = 'unknown',
): LinkInput => ({
  id: `${from}-to-${to}`,
  from,
  to,
  opens,
  closes,
  sweep,
});

const STALE = 240;

/** A wiped surface flashes off for a quarter of an hour and is stale after some hours. */
export const wiped = (from: string, to: string): LinkInput =>
  link(from, to, after(15), after(STALE));

/** How a hardened coat is keyed: what comes off before abrading would rub it in, and how coarse. */
interface Keying {
  readonly first: 'wash' | 'dewax';
  readonly grit: number;
}

/** A cured epoxy may have a blush on it, which water takes off. */
const ON_EPOXY: Keying = { first: 'wash', grit: 80 };
/** A gel coat without wax is tacky, which solvent takes off. */
export const ON_GEL_COAT: Keying = { first: 'dewax', grit: 40 };

/**
 * Next coat inside the bond window of the last one, or: let it harden, wash (or take off wax
 * and tack), abrade, vacuum, wipe, flash off, coat. Gives the two optional steps, all links and
 * the choice.
 */
export function bondOrPrepare(
  coat: string,
  next: string,
  skill: string,
  abrade: Size,
  { first, grit }: Keying = ON_EPOXY,
): {
  steps: StepInput[];
  links: LinkInput[];
  choice: NonNullable<ProcedureInput['choices']>[number];
} {
  const [key, wipe] = [`key-for-${next}`, `wipe-for-${next}`];
  const bond = link(coat, next, film('bond-opens'), film('bond-closes'));
  return {
    steps: [
      dusty(
        key,
        `${first === 'wash' ? 'Wash' : 'Dewax'} and abrade the hardened coat`,
        skill,
        abrade,
        prepares(first, grit),
      ),
      clean(
        wipe,
        'Vacuum and wipe the keyed surface',
        skill,
        { fixed: 10, perM2: 3 },
        { splittable: false, ...keptFor(next) },
      ),
    ],
    links: [bond, link(coat, key, film('sandable')), link(key, wipe), wiped(wipe, next)],
    choice: {
      id: `bond-${next}`,
      name: 'Bond in the window, or prepare',
      branches: [
        { id: 'bond', name: 'in the bond window', steps: [], links: [bond.id] },
        {
          id: 'prepare',
          name: `harden, ${first}, abrade, wipe`,
          steps: [key, wipe],
          links: [],
        },
      ],
    },
  };
}

/**
 * The third way: peel ply laid into the wet laminate, torn off when that is hard, and the next
 * coat onto the clean texture it leaves. Common practice, no source; for resins that blush less
 * under it, and where the sheet of the resin allows it.
 */
export function orPeelPly(
  two: ReturnType<typeof bondOrPrepare>,
  coat: string,
  next: string,
  material: string,
): ReturnType<typeof bondOrPrepare> {
  const [lay, tear] = [`peel-ply-for-${next}`, `tear-for-${next}`];
  return {
    steps: [
      ...two.steps,
      wet(lay, 'Lay peel ply into the wet resin', 'laminating', material, { fixed: 10, perM2: 10 }),
      clean(
        tear,
        'Tear off the peel ply',
        'fairing',
        { fixed: 10, perM2: 6 },
        { splittable: false, ...keptFor(next), ...prepares('peel') },
      ),
    ],
    links: [
      ...two.links,
      link(coat, lay, after(0), film('gel'), 'same'),
      link(lay, tear, film('sandable')),
      link(tear, next, after(0), after(STALE)),
    ],
    choice: {
      ...two.choice,
      name: 'Bond in the window, prepare, or peel ply',
      branches: [
        ...two.choice.branches,
        { id: 'peel', name: 'peel ply, torn off later', steps: [lay, tear], links: [] },
      ],
    },
  };
}
