import { z } from 'zod';
import { trustSchema } from '#planning/questions/trust.ts';
import { layerSchema } from '#planning/yard/boats.ts';
import { fabricSchema, materialSchema } from '#planning/yard/materials.ts';
import { preparationSchema, stepSchema } from '#planning/yard/procedures.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

const kind = preparationSchema.shape.kind;
const bond = named('Bond', z.enum(['chemical', 'mechanical', 'wait', 'refused']));
const stage = named('FilmStage', z.enum(['wet', 'open', 'between', 'hard', 'cured']));
const surfaceKind = layerSchema.shape.surface.unwrap();
const substrate = layerSchema.shape.base;
const bonding = stepSchema.shape.bonding.unwrap();
const evidence = { trust: trustSchema, source: z.string() };

const surface = z.strictObject({
  substrate,
  kind: surfaceKind,
  /** How far the film that makes it has come. */
  stage,
  waxed: z.boolean().default(false),
  blush: z.boolean().default(false).describe('An amine film may be on it.'),
  done: z
    .array(
      named(
        'DoneToSurface',
        z.strictObject({
          kind,
          minutesAgo: z.number().min(0),
          grit: preparationSchema.shape.grit.unwrap(),
        }),
      ),
    )
    .max(20)
    .default([])
    .describe('Since it was exposed, in order.'),
  ageMinutes: z.number().min(0).nullable().default(null).describe('Null: laid long ago.'),
});

/** What goes on: of a base and a use, `paint` being both. */
const nextCoat = z.strictObject({
  base: named('CoatBase', z.enum([...materialSchema.shape.resinSystem.options, 'paint'])),
  use: named('CoatUse', z.enum([...materialSchema.shape.use.unwrap().unwrap().options, 'paint'])),
  bonding: bonding.default('structural'),
  binder: fabricSchema.shape.binder
    .unwrap()
    .nullable()
    .default(null)
    .describe('Of the fabric that touches the surface.'),
});

export const BondCheckInput = inputShape(
  'BondCheckInput',
  z.strictObject({ surface: named('Surface', surface), next: named('NextCoat', nextCoat) }),
);

const answer = z.object({
  rule: z.string(),
  bond,
  preparation: z
    .array(
      named(
        'PreparationStep',
        z.object({
          kind,
          words: z.string(),
          grit: z.int().nullable(),
          waitMinutes: z.number().describe('After it, until it has flashed off.'),
          staleMinutes: z.number().nullable().describe('Null: it never is.'),
        }),
      ),
    )
    .describe('What has still to be done, in order.'),
  warnings: z.array(z.string()),
  reason: z.string(),
  ...evidence,
});
export const BondAnswer = outputShape('BondAnswer', answer);

/** The conditions of a rule: each list that is there must have what is found. */
const condition = named(
  'BondCondition',
  z.object({
    substrate: z.array(substrate).nullable(),
    kind: z.array(surfaceKind).nullable(),
    stage: z.array(stage).nullable(),
    waxed: z.boolean().nullable(),
    youngerThan: z.number().nullable().describe('Minutes since it was laid, not more.'),
    olderThan: z.number().nullable(),
    old: z.boolean().nullable().describe('Laid long ago.'),
    next: z.array(nextCoat.shape.base).nullable(),
    use: z.array(nextCoat.shape.use).nullable(),
    bonding: bonding.nullable(),
    binder: z
      .array(
        named('BinderOrNone', z.enum([...fabricSchema.shape.binder.unwrap().options, 'unknown'])),
      )
      .nullable(),
  }),
);

export const BondRuleList = outputShape(
  'BondRuleList',
  z.object({
    catalogue: z.string().describe('The version of the catalogue.'),
    items: z
      .array(
        named(
          'BondRule',
          z.object({
            id: z.string(),
            when: condition,
            bond,
            preparation: z.array(
              named('NeededPreparation', z.object({ kind, grit: z.int().nullable() })),
            ),
            warnings: z.array(z.string()),
            reason: z.string(),
            ...evidence,
          }),
        ),
      )
      .describe('The first whose conditions hold is the answer.'),
  }),
);

export const PartSurfaceQuery = inputShape(
  'PartSurfaceQuery',
  z.strictObject({
    at: instant.optional().describe('Left out: now.'),
    material: id.optional().describe('How it would bond is said besides.'),
    bonding: bonding.optional(),
  }),
);

export const PartSurface = outputShape(
  'PartSurface',
  z.object({
    partId: id,
    at: instant,
    surface: named('ExposedSurface', z.object(surface.shape))
      .nullable()
      .describe('Null: nothing is known of it, neither layers nor finished work.'),
    bond: answer.nullable().describe('Of the material asked about.'),
  }),
);

export type BondCheckInput = z.output<typeof BondCheckInput.schema>;
export type BondAnswer = z.output<typeof BondAnswer.schema>;
export type BondRuleList = z.output<typeof BondRuleList.schema>;
export type PartSurfaceQuery = z.output<typeof PartSurfaceQuery.schema>;
export type PartSurface = z.output<typeof PartSurface.schema>;
