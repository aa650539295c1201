import type { BondRule } from './rule.ts';
import {
  FAIRING_NOTES,
  GEL_COAT_CLASH,
  POLYESTER_ON_EPOXY,
  PRACTICE,
  SURFACE_PREPARATION,
} from './sources.ts';

const FIVE_DAYS = 5 * 24 * 60;

const never = { bond: 'refused', preparation: [], warnings: [] } as const;
const later = { bond: 'wait', preparation: [], warnings: [] } as const;

/** What never bonds, and what goes over epoxy only once it has cured through. */
export const REFUSALS: readonly BondRule[] = [
  {
    ...never,
    id: 'styrene-binder-in-epoxy',
    when: { next: ['epoxy'], binder: ['styrene-soluble'] },
    reason:
      'The binder of this mat is dissolved by styrene, and epoxy has none: it would not wet out. Use a stitched, woven or powder-bound fabric.',
    trust: 'read',
    source: 'suppliers’ pages on chopped strand mat and epoxy',
  },
  {
    ...never,
    id: 'polyester-filler-over-epoxy',
    when: { substrate: ['epoxy'], next: ['polyester', 'vinyl-ester'], use: ['fairing'] },
    reason: 'Polyester filler does not bond properly to epoxy and flakes off: fair with epoxy.',
    trust: 'read',
    source: FAIRING_NOTES,
  },
  {
    ...never,
    id: 'polyester-structure-over-epoxy',
    when: { substrate: ['epoxy'], next: ['polyester'], bonding: 'structural' },
    reason:
      'The bond of polyester to epoxy is not adequate for structure: laminate and glue with epoxy.',
    trust: 'read',
    source: POLYESTER_ON_EPOXY,
  },
  {
    ...never,
    id: 'vinyl-ester-structure-over-epoxy',
    when: { substrate: ['epoxy'], next: ['vinyl-ester'], bonding: 'structural' },
    reason: 'Treated as polyester, whose bond to epoxy is not adequate for structure: use epoxy.',
    trust: 'practice',
    source: `${PRACTICE}; of polyester: ${POLYESTER_ON_EPOXY}`,
  },
  {
    ...never,
    id: 'structure-over-paint',
    when: {
      substrate: ['paint'],
      bonding: 'structural',
      next: ['polyester', 'vinyl-ester', 'epoxy'],
    },
    reason: 'It would hold no better than the old coating does: take that off first.',
    trust: 'read',
    source: `${SURFACE_PREPARATION}: old coatings come off before sanding`,
  },
  {
    ...later,
    id: 'gel-coat-over-uncured-epoxy',
    when: {
      substrate: ['epoxy'],
      stage: ['wet', 'open', 'between', 'hard'],
      next: ['polyester', 'vinyl-ester'],
    },
    reason: 'Epoxy must have cured through, 5 to 7 days at least, before a polyester finish.',
    trust: 'read',
    source: POLYESTER_ON_EPOXY,
  },
  {
    ...later,
    id: 'gel-coat-over-young-epoxy',
    when: { substrate: ['epoxy'], youngerThan: FIVE_DAYS, next: ['polyester', 'vinyl-ester'] },
    reason: 'A polyester finish wants 5 to 7 days on the epoxy below it, however warm it was.',
    trust: 'read',
    source: POLYESTER_ON_EPOXY,
  },
  {
    id: 'gel-coat-over-epoxy',
    when: { substrate: ['epoxy'], next: ['polyester', 'vinyl-ester'], bonding: 'cosmetic' },
    bond: 'mechanical',
    preparation: [
      { kind: 'wash' },
      { kind: 'abrade', grit: 80 },
      { kind: 'extract' },
      { kind: 'wipe' },
    ],
    warnings: [
      'Contested: makers of polyester say never over epoxy. For looks only, over epoxy mixed exactly and not rich in hardener; try a patch first.',
    ],
    reason: 'A polyester finish holds on cured, washed and sanded epoxy, though not for structure.',
    trust: 'read',
    source: GEL_COAT_CLASH,
  },
  {
    ...later,
    id: 'paint-over-uncured-epoxy',
    when: {
      substrate: ['epoxy'],
      stage: ['wet', 'open', 'between', 'hard'],
      next: ['paint'],
    },
    reason: 'Epoxy must have cured through before paint.',
    trust: 'read',
    source: SURFACE_PREPARATION,
  },
];
