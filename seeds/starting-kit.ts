import { classOf } from '#cure/catalogue/classes.ts';
import type { Milestone } from '#planning/yard/materials.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { bothFaces, ownWipe } from './procedures/prepared.ts';
import type { ProcedureInput } from './procedures/step.ts';
import { craneLift } from './procedures/lift.ts';
import { procedures, skills } from './procedures.ts';

type MaterialInput = NonNullable<YardInput['materials']>[number];
type FabricInput = NonNullable<YardInput['fabrics']>[number];

/**
 * What a new yard may begin with: what does not depend on its people, spaces and boats. Its
 * materials are classes of the catalogue; lines that no class has are common practice, with the
 * wide spread that goes with it, so that a first plan can be made before the sheets are typed in.
 * How much hardener an epoxy takes is never among them: that is the product's.
 */
type Lists = 'skills' | 'tools' | 'stocks' | 'materials' | 'fabrics' | 'procedures';
export type StartingKit = { readonly [List in Lists]: NonNullable<YardInput[List]> };

const SOURCE = 'starting value, common practice, no source: enter that of your data sheet';
const CAUTION =
  'Some times here are starting values and no maker’s. Enter those of your data sheet before you rely on a window.';

/** Minutes at 20 °C and the factor per 10 degrees, as common practice has them. */
type Times = Partial<Record<Milestone, readonly [at20: number, per10: number]>>;

const line = (
  milestone: Milestone,
  [at20, per10]: readonly [number, number],
  celsius: readonly number[],
): NonNullable<MaterialInput['milestones']>[number] => ({
  milestone,
  rows: celsius.map((c) => ({
    celsius: c,
    minutes: Math.round(at20 * per10 ** ((20 - c) / 10)),
  })),
  source: SOURCE,
  trust: 'practice',
});

/** A class of the catalogue, with lines of ours only where it has none. */
function material(
  classId: string,
  id: string,
  name: string,
  celsius: readonly number[],
  times: Times,
  rest: Partial<MaterialInput> = {},
): MaterialInput {
  const known = classOf(classId);
  if (known === undefined) throw new Error(`the catalogue has no class ${classId}`);
  const lacking = (Object.entries(times) as [Milestone, readonly [number, number]][]).filter(
    ([milestone]) => known.milestones[milestone] === undefined,
  );
  return {
    id,
    name,
    classId,
    resinSystem: known.base,
    milestones: lacking.map(([milestone, time]) => line(milestone, time, celsius)),
    cautions: [CAUTION],
    ...rest,
  };
}

const practice = (value: number): NonNullable<MaterialInput['mixedDensity']> => ({
  value,
  source: SOURCE,
  trust: 'practice',
});

const epoxyRange = [10, 15, 20, 25, 30];
const gelRange = [15, 18, 20, 25];

const materials: readonly MaterialInput[] = [
  material('epoxy-slow', 'laminating-epoxy', 'Laminating epoxy', epoxyRange, {
    'open-time': [100, 1.9],
    gel: [150, 1.9],
    'tacky-opens': [95, 1.9],
    'tacky-closes': [420, 1.9],
    'bond-opens': [120, 1.9],
    'bond-closes': [720, 1.9],
    'tack-free': [480, 1.9],
    'dust-safe': [360, 1.9],
  }),
  material(
    'epoxy-slow-glue',
    'epoxy-glue',
    'Thickened epoxy',
    epoxyRange,
    {
      'open-time': [70, 1.9],
      gel: [100, 1.9],
      'tacky-opens': [60, 1.9],
      'tacky-closes': [300, 1.9],
      'bond-opens': [75, 1.9],
      'bond-closes': [600, 1.9],
      'tack-free': [360, 1.9],
      'dust-safe': [270, 1.9],
      sandable: [1440, 2.5],
    },
    { mixedDensity: practice(1.05) },
  ),
  material(
    'epoxy-fairing',
    'epoxy-filler',
    'Epoxy fairing filler',
    epoxyRange,
    {
      'pot-life': [45, 1.9],
      'bond-opens': [120, 1.9],
      'bond-closes': [720, 1.9],
      'tack-free': [360, 1.9],
      'dust-safe': [240, 1.9],
    },
    { mixedDensity: practice(0.75) },
  ),
  material('gel-coat', 'gel-coat', 'Gel coat, without wax', gelRange, {
    'pot-life': [30, 2.2],
    'bond-opens': [150, 2],
    'bond-closes': [720, 2],
    'tack-free': [720, 2],
    'dust-safe': [600, 2],
    sandable: [1440, 2.4],
    cured: [4320, 2.6],
  }),
  material('finish-gel-coat', 'finish-coat', 'Finish gel coat, with wax', gelRange, {
    'pot-life': [45, 2.2],
    'bond-opens': [150, 2],
    'tacky-opens': [130, 2],
    'tack-free': [480, 2],
    'dust-safe': [480, 2],
    handle: [960, 2.2],
    sandable: [1440, 2.4],
    cured: [4320, 2.6],
  }),
];

const fabrics: readonly FabricInput[] = [
  { id: 'biax-600', name: 'Biaxial glass 600 g/m²', gramsPerM2: 600 },
  { id: 'cloth-300', name: 'Glass cloth 300 g/m²', gramsPerM2: 300 },
].map((fabric) => ({ ...fabric, resinRatio: 1, binder: 'none', source: SOURCE }));

/** What the procedures call things, and what the kit does. */
const generic = new Map([
  ['demo-laminating-epoxy', 'laminating-epoxy'],
  ['demo-thickened-glue', 'epoxy-glue'],
  ['demo-fairing-filler', 'epoxy-filler'],
  ['demo-gel-coat', 'gel-coat'],
  ['demo-finish-coat', 'finish-coat'],
  ['demo-biax-600', 'biax-600'],
  ['demo-cloth-300', 'cloth-300'],
]);

function renamed(id: string): string {
  const found = generic.get(id);
  if (found === undefined) throw new Error(`the kit has nothing for ${id}`);
  return found;
}

type StepInput = ProcedureInput['steps'][number];

/** What a yard has to have first: a barrier, a slot list, a stock that runs out, a price. */
const fromOutside: ReadonlySet<string> = new Set(['barrier', 'slots', 'consumes', 'price']);

function bareStep(step: StepInput): StepInput {
  const kept = Object.entries(step).filter(([field]) => !fromOutside.has(field));
  const { material: laid, quantity, ...rest } = Object.fromEntries(kept) as StepInput;
  const plies =
    quantity?.kind === 'laminate' || quantity?.kind === 'tabbing'
      ? { plies: quantity.plies.map((ply) => ({ ...ply, fabric: renamed(ply.fabric) })) }
      : {};
  return {
    ...rest,
    ...(laid ? { material: renamed(laid) } : {}),
    ...(quantity ? { quantity: { ...quantity, ...plies } as typeof quantity } : {}),
  };
}

/** The procedure without what comes from outside it. What waits for a surveyor waits for a word. */
const bare = (procedure: ProcedureInput): ProcedureInput => ({
  ...procedure,
  steps: procedure.steps.map(bareStep),
});

export const startingKit: StartingKit = {
  skills,
  tools: [
    { id: 'extractor', name: 'Dust extractor', count: 1 },
    { id: 'spray-gun', name: 'Gel-coat spray gun', count: 1 },
    { id: 'clamp-set', name: 'Clamps and shores', count: 2 },
    { id: 'laminating-table', name: 'Laminating table', count: 1 },
  ],
  stocks: [],
  materials: [...materials],
  fabrics: [...fabrics],
  procedures: procedures
    .filter((procedure) => procedure !== craneLift)
    .map((one) => bare(ownWipe(bothFaces(one)))),
};
