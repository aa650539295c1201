import type { Milestone } from '#planning/yard/materials.ts';
import type { YardInput } from '#planning/yard/yard.ts';

type MaterialInput = NonNullable<YardInput['materials']>[number];
type TableInput = NonNullable<MaterialInput['milestones']>[number];
type FigureInput = NonNullable<MaterialInput['massPower']>;

const INVENTED = 'Invented demo data sheet, not a real product';

/** What a made-up sheet is taken to be right to: its films of one day and another differ by that. */
const SPREAD = 1.1;

const figure = (value: number, spread = SPREAD): FigureInput => ({
  value,
  source: INVENTED,
  spread,
});

/** Of temperatures, humidities and hours that a sheet lays down: they are what it says. */
const limit = (value: number): FigureInput => figure(value, 0);
const hours = (value: number): FigureInput => figure(value, 1);

/**
 * A sheet's line from its minutes at 20 degrees and the factor per 10 degrees. The factors
 * are of the size that published charts show: 1.9 for gel and recoat, 3.0 for hardness
 * (Powercrete J gel, re-coat and curing time chart). The minutes are made up.
 */
function line(
  milestone: Milestone,
  at20: number,
  per10: number,
  celsius: readonly number[],
): TableInput {
  const rows = celsius.map((c) => ({
    celsius: c,
    minutes: Math.round(at20 * per10 ** ((20 - c) / 10)),
  }));
  return { milestone, rows, source: INVENTED, spread: SPREAD };
}

type Times = Partial<Record<Milestone, readonly [at20: number, per10: number]>>;

const sheet = (times: Times, celsius: readonly number[]): TableInput[] =>
  (Object.entries(times) as [Milestone, readonly [number, number]][]).map(
    ([milestone, [at20, per10]]) => line(milestone, at20, per10, celsius),
  );

const cold = [5, 10, 15, 20, 25, 30];
const warm = [15, 18, 20, 25, 30];

/** What epoxies share; their cups follow the mass by the sheet, their films only by warmth. */
const epoxy = {
  resinSystem: 'epoxy',
  surface: 'sealed',
  waxed: false,
  blushes: true,
  minimumC: 5,
  maximumC: 32,
  belowMinimum: 'stalls',
  maximumHumidity: limit(85),
  minimumDewMarginC: limit(3),
  dampAir: 'refuse',
  preheatHours: hours(0),
  holdHours: hours(0),
  hardener: { kind: 'ratio', per100: figure(30, 1.02) },
  massPower: figure(0.25, 1.3),
  thicknessPower: figure(0.3, 1.5),
  referenceGrams: figure(100, 1),
  referenceMm: figure(25, 1.2),
  resinDensity: figure(1.15, 1.02),
  hardenerDensity: figure(0.98, 1.02),
  mixedDensity: figure(1.1, 1.02),
  shelfLifeDays: figure(730, 1),
} as const satisfies Partial<MaterialInput>;

const polyester = {
  resinSystem: 'polyester',
  blushes: false,
  minimumC: 15,
  maximumC: 30,
  belowMinimum: 'spoils',
  maximumHumidity: limit(80),
  minimumDewMarginC: limit(3),
  dampAir: 'refuse',
  preheatHours: hours(24),
  holdHours: hours(24),
  hardener: {
    kind: 'percent',
    usual: figure(1.8, 1.05),
    used: 1.8,
    warn: { low: 1.5, high: 2 },
    block: { low: 1, high: 2.5 },
    effect: figure(1, 1.3),
  },
  massPower: figure(0.15, 1.2),
  thicknessPower: figure(0.3, 1.5),
  referenceGrams: figure(100, 1),
  referenceMm: figure(25, 1.2),
  resinDensity: figure(1.15, 1.02),
  hardenerDensity: figure(1.17, 1.02),
  mixedDensity: figure(1.15, 1.02),
  gramsPerM2: figure(600, 1.1),
  shelfLifeDays: figure(180, 1),
} as const satisfies Partial<MaterialInput>;

/**
 * Sheets laid over classes of the catalogue, every line made up. The cautions are common
 * practice, no source, on top of the library's: a real sheet's own stand before them.
 */
export const materials: readonly MaterialInput[] = [
  {
    ...epoxy,
    id: 'demo-laminating-epoxy',
    name: 'Demo laminating epoxy (invented)',
    classId: 'epoxy-slow',
    use: 'laminating',
    milestones: sheet(
      {
        'pot-life': [40, 1.9],
        'open-time': [110, 1.9],
        gel: [150, 1.9],
        'tacky-opens': [95, 1.9],
        'tacky-closes': [330, 1.9],
        'bond-opens': [120, 1.9],
        'bond-closes': [600, 1.9],
        'tack-free': [480, 1.9],
        'dust-safe': [360, 1.9],
        handle: [720, 2.2],
        sandable: [960, 3],
        cured: [7200, 3],
      },
      cold,
    ),
    gramsPerM2: figure(140),
    cautions: ['Keep resin and hardener off the skin: gloves, and no solvent to clean hands.'],
  },
  {
    ...epoxy,
    id: 'demo-thickened-glue',
    name: 'Demo thickened epoxy glue (invented)',
    classId: 'epoxy-slow-glue',
    use: 'glue',
    milestones: sheet(
      {
        'pot-life': [30, 1.9],
        'open-time': [70, 1.9],
        gel: [100, 1.9],
        'tacky-opens': [60, 1.9],
        'tacky-closes': [240, 1.9],
        'bond-opens': [75, 1.9],
        'bond-closes': [480, 1.9],
        'tack-free': [360, 1.9],
        'dust-safe': [270, 1.9],
        handle: [600, 2.2],
        sandable: [780, 3],
        cured: [5760, 3],
      },
      cold,
    ),
    mixedDensity: figure(1.05, 1.05),
    gramsPerM2: figure(370),
    cautions: [
      'A thick mass in the pot runs hot: spread it or split it into smaller cups.',
      'Keep resin and hardener off the skin: gloves, and no solvent to clean hands.',
    ],
  },
  {
    ...epoxy,
    id: 'demo-fairing-filler',
    name: 'Demo epoxy fairing filler (invented)',
    classId: 'epoxy-fairing',
    use: 'fairing',
    minimumC: 8,
    milestones: sheet(
      {
        'pot-life': [45, 1.9],
        'bond-opens': [120, 1.9],
        'bond-closes': [720, 1.9],
        'tack-free': [360, 1.9],
        'dust-safe': [240, 1.9],
        sandable: [900, 2.6],
        cured: [5760, 3],
      },
      cold,
    ),
    hardener: { kind: 'ratio', per100: figure(100, 1.02) },
    resinDensity: figure(0.72, 1.02),
    hardenerDensity: figure(0.72, 1.02),
    mixedDensity: figure(0.72, 1.02),
    gramsPerM2: figure(720),
    shelfLifeDays: figure(365, 1),
  },
  {
    ...polyester,
    id: 'demo-gel-coat',
    name: 'Demo gel coat, without wax (invented)',
    classId: 'gel-coat',
    use: 'gel-coat',
    surface: 'inhibited',
    waxed: false,
    milestones: sheet(
      {
        'pot-life': [30, 2.2],
        gel: [40, 2.2],
        'bond-opens': [55, 2],
        'bond-closes': [270, 2],
        'tack-free': [300, 2],
        'dust-safe': [240, 2],
        sandable: [840, 2.4],
        cured: [4320, 2.6],
      },
      warm,
    ),
    cautions: ['Without wax the surface stays tacky in air: take that off with solvent first.'],
  },
  {
    ...polyester,
    id: 'demo-finish-coat',
    name: 'Demo finish coat, with wax (invented)',
    classId: 'finish-gel-coat',
    use: 'finish',
    surface: 'sealed',
    waxed: true,
    milestones: sheet(
      {
        'pot-life': [45, 2.2],
        gel: [55, 2.2],
        'bond-opens': [70, 2],
        'bond-closes': [200, 2],
        'tacky-opens': [60, 2],
        'tack-free': [240, 2],
        'dust-safe': [200, 2],
        handle: [480, 2.2],
        sandable: [960, 2.4],
        cured: [4320, 2.6],
      },
      warm,
    ),
  },
];

const exact = (of: MaterialInput['massPower']) => (of ? { ...of, spread: 1 } : null);

/**
 * The same sheets taken to be exact and to ask nothing of the air, without a class below them:
 * of generated yards, which are about crews and not about sheets.
 */
export const exactMaterials: readonly MaterialInput[] = materials.map((material) => ({
  ...material,
  classId: null,
  milestones: (material.milestones ?? []).map((table) => ({ ...table, spread: 1 })),
  maximumHumidity: null,
  minimumDewMarginC: null,
  dampAir: 'warn',
  preheatHours: null,
  holdHours: null,
  massPower: exact(material.massPower),
  thicknessPower: exact(material.thicknessPower),
}));
