import { z } from 'zod';
import { changeInputSchema, changeKindSchema } from '#live/change/change-input.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import '../../shape-names.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
// Parts and jobs have their names from there.
import '../boats/boats.module.ts';
import { Proposal } from '../proposals/proposals.service.ts';

named('ChangeKind', changeKindSchema);
export const changeStateSchema = named(
  'ChangeState',
  z.enum(['asked', 'priced', 'accepted', 'declined', 'withdrawn']),
);

/** Null: somebody of the yard, whose name is not told. */
const party = named(
  'ChangeParty',
  z.object({
    id: id.nullable(),
    name: z.string().describe('“The yard” where a name is not told.'),
  }),
);
export type Party = z.output<typeof party>;

const wanted = named(
  'ChangeWanted',
  z.object({
    kind: changeKindSchema,
    partId: id,
    part: z.string(),
    areaM2: z.number().nullable().describe('As wanted; null: as it is.'),
    edgeM: z.number().nullable(),
    jointM: z.number().nullable(),
    procedures: z.array(z.string()).describe('Of a further part: what is to be done on it.'),
  }),
);
export type Wanted = z.output<typeof wanted>;

/** What somebody wants otherwise than agreed. */
export const Change = outputShape(
  'Change',
  z.object({
    id,
    boatId: id,
    boat: z.string(),
    refitId: id,
    refit: z.string(),
    wanted,
    words: z.string(),
    state: changeStateSchema,
    decides: named('ChangeDecides', z.enum(['owner', 'foreman'])).describe(
      'Who says yes: the owner of the boat, or, where none has an account, the foreman.',
    ),
    raisedBy: party,
    decidedBy: party.nullable(),
    decidedAt: instant.nullable(),
    note: z.string(),
    proposal: Proposal.schema.nullable().describe('What it would do and cost, as told last.'),
    createdAt: instant,
    revision,
  }),
);
export type Change = z.output<typeof Change.schema>;
export const ChangePage = pageShape(Change);

const text = z.string().trim().max(1000);

export const ChangeInput = inputShape(
  'ChangeInput',
  z.strictObject({
    change: named('ChangeOf', changeInputSchema),
    words: text.default('').describe('Why, for whoever decides.'),
  }),
);
export type ChangeInput = z.output<typeof ChangeInput.schema>;

/** The price that somebody says yes to: as it was read, and no later one. */
export const AcceptInput = inputShape(
  'AcceptChangeInput',
  z.strictObject({ proposalId: id, note: text.default('') }),
);
export type AcceptInput = z.output<typeof AcceptInput.schema>;

export const RefuseInput = inputShape(
  'RefuseChangeInput',
  z.strictObject({ note: text.default('') }),
);
export type RefuseInput = z.output<typeof RefuseInput.schema>;

const filter = { state: changeStateSchema.optional() };
export const ChangesQuery = inputShape('ChangesQuery', pageQuerySchema.extend(filter));
export type ChangesQuery = z.output<typeof ChangesQuery.schema>;
export type ChangeState = z.output<typeof changeStateSchema>;
