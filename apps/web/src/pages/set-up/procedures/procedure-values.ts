import type { Schema } from '../../../api/client.ts';

export type Procedure = Schema<'Procedure'>;
export type Step = Schema<'Step'>;
export type Link = Schema<'Link'>;
export type Choice = Schema<'Choice'>;
export type Moment = Schema<'Moment'>;
export type Air = Step['air'];

/** What is written: all of a version but its number. */
export type ProcedureValues = Pick<Procedure, 'name' | 'steps' | 'links' | 'choices'>;

const plain: Omit<Step, 'id' | 'name'> = {
  effort: { fixed: 0, perM2: 0, perEdgeM: 0, perJointM: 0, source: '' },
  skill: null,
  minLevel: 1,
  crewMin: 1,
  crewMax: 1,
  floorMinutes: 0,
  air: 'clean',
  material: null,
  quantity: null,
  oneBatch: false,
  prepares: [],
  bonding: 'structural',
  space: null,
  tools: [],
  splittable: true,
  breaks: 'observed',
  cleanDownMinutes: 0,
  move: null,
  onPart: true,
  joins: false,
  holds: [],
  consumes: [],
  barrier: null,
  slots: null,
  price: 0,
  sensitiveUntil: null,
  coveredBy: [],
};

/** A step of a kind as it usually is; everything of it can be changed. */
export function blankStep(
  id: string,
  name: string,
  kind: Air | 'hold',
  skill: string | null,
): Step {
  if (kind === 'hold')
    return { ...plain, id, name, skill: null, crewMin: 0, crewMax: 0, splittable: false };
  const wet = { splittable: false, breaks: 'relieved', cleanDownMinutes: 10 } as const;
  return { ...plain, id, name, skill, air: kind, ...(kind === 'wet' ? wet : {}) };
}

/** Everything but the step, and nothing that names it. */
export function withoutStep(
  { name, steps, links, choices }: ProcedureValues,
  id: string,
): ProcedureValues {
  const left = links.filter(({ from, to }) => from !== id && to !== id);
  const stays = new Set(left.map((link) => link.id));
  return {
    name,
    steps: steps
      .filter((step) => step.id !== id)
      .map((step) => ({
        ...step,
        coveredBy: step.coveredBy.filter((one) => one !== id),
        holds: step.holds.map((hold) => ({
          ...hold,
          until: hold.until.filter((end) => end.kind !== 'step' || end.step !== id),
        })),
      })),
    links: left,
    choices: choices.map((choice) => ({
      ...choice,
      branches: choice.branches.map((branch) => ({
        ...branch,
        steps: branch.steps.filter((one) => one !== id),
        links: branch.links.filter((one) => stays.has(one)),
      })),
    })),
  };
}

/** The step one place up (-1) or down (1). */
export function movedStep(steps: readonly Step[], at: number, by: -1 | 1): Step[] {
  const to = at + by;
  if (to < 0 || to >= steps.length) return [...steps];
  return steps.toSpliced(at, 1).toSpliced(to, 0, steps[at]);
}
