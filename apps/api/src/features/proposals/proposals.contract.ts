import { z } from 'zod';
import { priceSchema } from '#live/price/price.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { outputShape } from '../../platform/shapes/shape.ts';

named('PriceWork', priceSchema.shape.work.element);
named('PriceMaterial', priceSchema.shape.materials.element);
named('PriceBoat', priceSchema.shape.boats.element);

export const proposalStateSchema = named(
  'ProposalState',
  z.enum(['pricing', 'priced', 'unplannable', 'accepted', 'declined', 'superseded']),
);

/** What a snag or a change would do to the work, and what that would cost. */
export const Proposal = outputShape(
  'Proposal',
  z.object({
    id,
    state: proposalStateSchema,
    meaning: z.array(z.string()).describe('What it means for the work, in words.'),
    price: named('Price', priceSchema)
      .nullable()
      .describe('Against the same yard planned without it; null until it is priced.'),
    words: z.array(z.string()).describe('The price in words, line by line.'),
    why: z.array(z.string()).describe('Why there is no price.'),
    createdAt: instant,
    pricedAt: instant.nullable(),
    outdated: z
      .boolean()
      .describe(
        'The work of the yard is not what it was priced with: it has to be priced again before a yes.',
      ),
  }),
);
export type Proposal = z.output<typeof Proposal.schema>;
