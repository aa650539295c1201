import { z } from 'zod';
import { overrideInputSchema } from '#live/life/commands.ts';
import { phoneTimes } from '#live/life/phone.ts';
import { snagKindSchema } from '#live/rework/defects.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import { Proposal } from '../proposals/proposals.service.ts';
import { mediaTypes } from './photos/picture.ts';

named('SnagKind', snagKindSchema);
export const snagStateSchema = named(
  'SnagState',
  z.enum(['open', 'proposed', 'accepted', 'settled', 'dismissed']),
);

/** Square metres of the part. */
const areaM2 = z.number().positive().max(10_000);
const words = z.string().trim().min(1).max(2000);
const note = z.string().trim().max(2000).default('');

export const SnagPhoto = outputShape(
  'SnagPhoto',
  z.object({
    id,
    mediaType: named('PhotoType', z.enum(mediaTypes)),
    bytes: z.int(),
    width: z.int(),
    height: z.int(),
    addedBy: id.nullable().describe('Null to owners.'),
    addedAt: instant,
  }),
);

const rework = named(
  'SnagRework',
  z.object({ id, words: z.string(), madeAt: instant, taskIds: z.array(id) }),
);

export const Snag = outputShape(
  'Snag',
  z.object({
    id,
    partId: id,
    partName: z.string(),
    refitId: id,
    taskId: id.nullable().describe('The done task whose work is at fault; null: not known yet.'),
    kind: snagKindSchema,
    kindName: z.string().describe('As a boatbuilder calls it.'),
    words: z.string(),
    areaM2: areaM2.nullable().describe('How much of the part; null: all that the task covers.'),
    state: snagStateSchema,
    note: z.string().describe('Why it was dismissed, or how it was settled.'),
    shownToOwner: z.boolean(),
    raisedBy: id.nullable().describe('Null to owners.'),
    foundAt: z.iso.datetime(),
    photos: z.array(SnagPhoto.schema),
    proposal: Proposal.schema
      .nullable()
      .describe('The latest rework proposed for it, to the foreman; null to others.'),
    reworks: z.array(rework).describe('Made for it; none to owners.'),
    revision,
  }),
);
export const SnagPage = pageShape(Snag);

const raised = z.strictObject({
  kind: snagKindSchema,
  words: words.describe('What was found, where on the part, how it shows.'),
  taskId: id
    .nullable()
    .default(null)
    .describe('The done task whose work is at fault; null: the service names the likeliest.'),
  areaM2: areaM2.nullable().default(null),
});
export const SnagInput = inputShape('SnagInput', raised.extend(phoneTimes));
export const SnagPatch = inputShape(
  'SnagPatch',
  patchOf(raised.extend({ shownToOwner: z.boolean() })),
);

const asked = z.strictObject({
  partId: id.optional(),
  refitId: id.optional(),
  state: snagStateSchema.optional(),
});
export const SnagsQuery = inputShape('SnagsQuery', pageQuerySchema.extend(asked.shape));
/** The same where the page is asked for apart from it. */
export const SnagsFilter = inputShape('SnagsFilterInput', asked);

export const AcceptReworkInput = inputShape(
  'AcceptReworkInput',
  z.strictObject({
    proposalId: id.describe('The proposal that is agreed to, as it was read.'),
    override: overrideInputSchema
      .optional()
      .describe('Why it is to be done though the yard has no plan with it, and so no price.'),
  }),
);
export const SnagNoteInput = inputShape('SnagNoteInput', z.strictObject({ note }));
export const PhotoQuery = inputShape(
  'PhotoQuery',
  z.strictObject({
    size: named('PhotoSize', z.enum(['whole', 'small'])).optional(),
  }),
);

/** A kind of defect, for whoever has to choose one. */
const snagKind = named(
  'SnagKindInWords',
  z.object({
    kind: snagKindSchema,
    name: z.string(),
    shows: z.string().describe('How it shows.'),
    source: z.string(),
  }),
);
export const SnagKinds = outputShape('SnagKinds', z.object({ items: z.array(snagKind) }));

export type SnagPhoto = z.output<typeof SnagPhoto.schema>;
export type Snag = z.output<typeof Snag.schema>;
export type SnagInput = z.output<typeof SnagInput.schema>;
export type SnagPatch = z.output<typeof SnagPatch.schema>;
export type SnagsQuery = z.output<typeof SnagsQuery.schema>;
export type SnagsFilter = z.output<typeof SnagsFilter.schema>;
export type AcceptReworkInput = z.output<typeof AcceptReworkInput.schema>;
export type SnagNoteInput = z.output<typeof SnagNoteInput.schema>;
export type PhotoQuery = z.output<typeof PhotoQuery.schema>;
export type SnagKinds = z.output<typeof SnagKinds.schema>;
