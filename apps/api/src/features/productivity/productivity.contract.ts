import { z } from 'zod';
import { id } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const estimate = {
  factor: z.number().describe('How many times as long as planned: 1.2 is a fifth longer.'),
  low: z.number().describe('Four times out of five the true factor lies between low and high.'),
  high: z.number(),
  tasks: z.int(),
  planned: z.number().describe('Builder-minutes, by the numbers that are planned with now.'),
  actual: z.number().describe('Builder-minutes, breaks and nights inside a span left out.'),
  advised: z
    .boolean()
    .describe('Three tasks or more, 5 % or more, and an interval that leaves out 1.'),
};

const revision = z.int().min(1).describe('Goes with the word to apply it.');

const stepEstimate = named(
  'StepProductivity',
  z.object({
    procedureId: id,
    procedure: z.string(),
    stepId: id,
    step: z.string(),
    revision: revision.describe('The procedure’s version; goes with the word to apply it.'),
    ...estimate,
  }),
);

const personEstimate = named(
  'PersonProductivity',
  z.object({
    personId: id,
    person: z.string(),
    skillId: id,
    skill: z.string(),
    revision,
    speed: z.int().describe('Percent of the nominal rate that is planned with.'),
    speedThen: z.int().describe('What it would be with the factor applied.'),
    ...estimate,
  }),
);

const spaceEstimate = named(
  'SpaceProductivity',
  z.object({
    spaceId: id,
    space: z.string(),
    revision,
    workPercent: z.int(),
    workPercentThen: z.int().describe('What it would be with the factor applied.'),
    ...estimate,
  }),
);

const oddTask = named(
  'OddTask',
  z.object({ taskId: z.string(), task: z.string(), factor: z.number() }),
);
const leftOut = named('TasksLeftOut', z.object({ tasks: z.int(), words: z.string() }));

export const Productivity = outputShape(
  'Productivity',
  z.object({
    yard: named('YardProductivity', z.object(estimate))
      .nullable()
      .describe('Null: nothing to go by.'),
    steps: z.array(stepEstimate),
    people: z.array(personEstimate),
    spaces: z.array(spaceEstimate),
    setAside: z
      .array(oddTask)
      .describe('So far from the others that a clock was forgotten; counted nowhere.'),
    leftOut: z.array(leftOut),
    method: z.string(),
  }),
);

/** What is to be changed: a step's effort, somebody's speed at a skill, what work takes in a space. */
export const changeSchema = named(
  'ProductivityChange',
  z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('step'), procedureId: id, stepId: id }),
    z.strictObject({ kind: z.literal('person'), personId: id, skillId: id }),
    z.strictObject({ kind: z.literal('space'), spaceId: id }),
  ]),
);
export type ProductivityChange = z.output<typeof changeSchema>;

export const ProductivityInput = inputShape(
  'ProductivityInput',
  z.strictObject({
    change: changeSchema,
    factor: z
      .number()
      .min(0.25)
      .max(4)
      .describe('How many times as long as planned: the one that was shown, or another one.'),
    revision: revision.describe('As it was shown.'),
    alsoWaiting: z
      .boolean()
      .default(true)
      .describe('Of a step: tasks that nobody has begun are sized anew as well.'),
  }),
);

export const ProductivityApplied = outputShape(
  'ProductivityApplied',
  z.object({
    words: z.string(),
    tasks: z.int().describe('Waiting tasks that have another length now.'),
    revision: revision.describe('Of the record as it is now.'),
  }),
);

export type Productivity = z.output<typeof Productivity.schema>;
export type ProductivityInput = z.output<typeof ProductivityInput.schema>;
export type ProductivityApplied = z.output<typeof ProductivityApplied.schema>;
