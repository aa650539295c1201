import type { Milestone } from '#planning/yard/materials.ts';
import type { YardInput } from '#planning/yard/yard.ts';

type MaterialInput = NonNullable<YardInput['materials']>[number];

const INVENTED = 'Invented demo data sheet, not a real product';

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
): MaterialInput['milestones'][number] {
  const rows = celsius.map((c) => ({
    celsius: c,
    minutes: Math.round(at20 * per10 ** ((20 - c) / 10)),
  }));
  return { milestone, rows, source: INVENTED };
}

type Times = Partial<Record<Milestone, readonly [at20: number, per10: number]>>;

const sheet = (times: Times, celsius: readonly number[]): MaterialInput['milestones'] =>
  (Object.entries(times) as [Milestone, readonly [number, number]][]).map(
    ([milestone, [at20, per10]]) => line(milestone, at20, per10, celsius),
  );

const cold = [5, 10, 15, 20, 25, 30];
const warm = [15, 18, 20, 25, 30];

/** The cautions are common practice, no source: a real sheet's own stand before them. */
export const materials: readonly MaterialInput[] = [
  {
    id: 'demo-laminating-epoxy',
    name: 'Demo laminating epoxy (invented)',
    resinSystem: 'epoxy',
    minimumC: 5,
    maximumC: 32,
    belowMinimum: 'stalls',
    milestones: sheet(
      {
        'pot-life': [25, 1.9],
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
    cautions: [
      'Wash the surface with water before abrading it: a waxy film may have formed on it.',
      'Keep resin and hardener off the skin: gloves, and no solvent to clean hands.',
    ],
  },
  {
    id: 'demo-thickened-glue',
    name: 'Demo thickened epoxy glue (invented)',
    resinSystem: 'epoxy',
    minimumC: 5,
    maximumC: 32,
    belowMinimum: 'stalls',
    milestones: sheet(
      {
        'pot-life': [18, 1.9],
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
    cautions: [
      'A thick mass in the pot runs hot: spread it or split it into smaller cups.',
      'Keep resin and hardener off the skin: gloves, and no solvent to clean hands.',
    ],
  },
  {
    id: 'demo-fairing-filler',
    name: 'Demo epoxy fairing filler (invented)',
    resinSystem: 'epoxy',
    minimumC: 8,
    maximumC: 32,
    belowMinimum: 'stalls',
    milestones: sheet(
      {
        'pot-life': [30, 1.9],
        'bond-opens': [120, 1.9],
        'bond-closes': [720, 1.9],
        'tack-free': [360, 1.9],
        'dust-safe': [240, 1.9],
        sandable: [900, 2.6],
        cured: [5760, 3],
      },
      cold,
    ),
    cautions: [
      'Green epoxy dust sensitises: sand only when it is hard, with extraction and a mask.',
    ],
  },
  {
    id: 'demo-gel-coat',
    name: 'Demo gel coat, without wax (invented)',
    resinSystem: 'polyester',
    minimumC: 15,
    maximumC: 30,
    belowMinimum: 'spoils',
    milestones: sheet(
      {
        'pot-life': [18, 2.2],
        gel: [25, 2.2],
        'bond-opens': [55, 2],
        'bond-closes': [270, 2],
        'tack-free': [300, 2],
        'dust-safe': [240, 2],
        sandable: [840, 2.4],
        cured: [4320, 2.6],
      },
      warm,
    ),
    cautions: [
      'Never let hardener and accelerator meet undiluted: they explode.',
      'Styrene vapour: extract the air, wear a mask for organic vapours, no flame or spark.',
      'Without wax the surface stays tacky in air: take that off with solvent before abrading.',
    ],
  },
  {
    id: 'demo-finish-coat',
    name: 'Demo finish coat, with wax (invented)',
    resinSystem: 'polyester',
    minimumC: 15,
    maximumC: 30,
    belowMinimum: 'spoils',
    milestones: sheet(
      {
        'pot-life': [18, 2.2],
        gel: [25, 2.2],
        'bond-opens': [50, 2],
        'bond-closes': [200, 2],
        'tacky-opens': [40, 2],
        'tack-free': [240, 2],
        'dust-safe': [200, 2],
        handle: [480, 2.2],
        sandable: [960, 2.4],
        cured: [4320, 2.6],
      },
      warm,
    ),
    cautions: [
      'Take the wax off with solvent before abrading.',
      'Styrene vapour: extract the air, wear a mask for organic vapours, no flame or spark.',
    ],
  },
];
