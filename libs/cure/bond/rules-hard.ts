import type { BondRule, Needed } from './rule.ts';
import { CLEAN_FIRST, ICS, PRACTICE, SURFACE_PREPARATION } from './sources.ts';

const polyesters = ['polyester', 'vinyl-ester'] as const;

/** `first` takes off what abrading would drive in: wax with solvent, an amine film with water. */
const keyed = (first: 'dewax' | 'wash' | null, grit: number): readonly Needed[] => [
  ...(first === null ? [] : [{ kind: first }]),
  { kind: 'abrade', grit },
  { kind: 'extract' },
  { kind: 'wipe' },
];

const mechanical = { bond: 'mechanical', warnings: [] } as const;

/** What has hardened: a bond is what the surface is prepared for. */
export const HARD_RULES: readonly BondRule[] = [
  {
    ...mechanical,
    id: 'peel-ply',
    when: { kind: ['peel-ply'] },
    preparation: [{ kind: 'peel' }],
    reason: 'Torn off, peel ply leaves a clean rough surface that needs no other treatment.',
    trust: 'read',
    source: `${ICS}, 602.3; ${SURFACE_PREPARATION}`,
  },
  {
    ...mechanical,
    id: 'paint-over-cured-epoxy',
    when: { substrate: ['epoxy'], next: ['paint'] },
    preparation: keyed('wash', 120),
    reason:
      'Cured epoxy is washed with water, then sanded, before paint: 120 to 180 grit for primer.',
    trust: 'read',
    source: `${SURFACE_PREPARATION}; grits in Final Fairing & Finishing (002-740), p. 16`,
  },
  {
    ...mechanical,
    id: 'epoxy-on-cured-epoxy',
    when: { substrate: ['epoxy'] },
    preparation: keyed('wash', 80),
    reason:
      'An amine film may be on any cured epoxy, and only water takes it off: sanded first it would be driven in.',
    trust: 'read',
    source: SURFACE_PREPARATION,
  },
  {
    ...mechanical,
    id: 'paint-on-waxed-polyester',
    when: { substrate: polyesters, waxed: true, next: ['paint'] },
    preparation: keyed('dewax', 120),
    reason: 'The wax comes off first, with solvent; then it is sanded for primer.',
    trust: 'read',
    source: `${ICS}, 602.2 (after 24 h); solvent first: ${CLEAN_FIRST}; grits in Final Fairing & Finishing (002-740), p. 16`,
  },
  {
    ...mechanical,
    id: 'on-waxed-polyester',
    when: { substrate: polyesters, waxed: true },
    preparation: keyed('dewax', 80),
    reason: 'The wax comes off first, with solvent; abrading would grind it in.',
    trust: 'read',
    source: `${ICS}, 602.2 (after 24 h); iboats.com (sanded and washed); solvent first: ${CLEAN_FIRST}`,
  },
  {
    ...mechanical,
    id: 'paint-on-polyester',
    when: { substrate: polyesters, next: ['paint'] },
    preparation: keyed('wash', 120),
    reason: 'Washed, then sanded for primer.',
    trust: 'read',
    source: `${CLEAN_FIRST}; grits in Final Fairing & Finishing (002-740), p. 16`,
  },
  {
    ...mechanical,
    id: 'on-old-polyester',
    when: { substrate: polyesters, old: true },
    preparation: keyed('wash', 80),
    reason:
      'Old polyester and gel coat bond once clean, abraded and free of dust: with polyester or epoxy.',
    trust: 'read',
    source: `${ICS}, 602.1 and 602.8; ${CLEAN_FIRST}`,
  },
  {
    ...mechanical,
    id: 'on-hardened-polyester',
    when: { substrate: polyesters },
    preparation: keyed(null, 80),
    reason:
      'Past its window polyester is ground, and dust and oil are taken off: laminate with 36 to 40 grit as a rule, 80 at the finest.',
    trust: 'read',
    source: `${ICS}, 602.1 and 602.2; 80 grit for bonding in Final Fairing & Finishing (002-740), p. 16; 36 to 40 common practice`,
  },
  {
    ...mechanical,
    id: 'epoxy-on-wood',
    when: { substrate: ['wood'], next: ['epoxy'] },
    preparation: keyed(null, 80),
    reason: 'Sanding opens the pores, and the wipe takes the oil off an oily wood.',
    trust: 'read',
    source: SURFACE_PREPARATION,
  },
  {
    ...mechanical,
    id: 'epoxy-on-metal',
    when: { substrate: ['metal'], next: ['epoxy'] },
    preparation: keyed('dewax', 80),
    reason: 'Degreased, then ground to bright metal, and coated before it dulls.',
    trust: 'read',
    source: SURFACE_PREPARATION,
  },
  {
    ...mechanical,
    id: 'on-wood',
    when: { substrate: ['wood'] },
    preparation: keyed(null, 80),
    reason: 'Bare wood is sanded dry: water would swell it and stay in it.',
    trust: 'practice',
    source: `${PRACTICE}; wood that must not get wet is sanded dry in J. R. Watson, Wet Sanding Epoxy`,
  },
  {
    ...mechanical,
    id: 'on-metal',
    when: { substrate: ['metal'] },
    preparation: keyed('dewax', 80),
    reason: 'Degreased, then ground to bright metal, and coated before it dulls.',
    trust: 'practice',
    source: `${PRACTICE}; as for epoxy in ${SURFACE_PREPARATION}`,
  },
  {
    ...mechanical,
    id: 'on-foam',
    when: { substrate: ['foam'] },
    preparation: [{ kind: 'abrade', grit: 80 }, { kind: 'extract' }],
    reason: 'Foam is roughened and freed of dust; solvent may soften it.',
    trust: 'practice',
    source: PRACTICE,
  },
  {
    ...mechanical,
    id: 'on-paint',
    when: { substrate: ['paint'] },
    preparation: keyed('wash', 120),
    warnings: ['It holds no better than the paint below does: try how that holds first.'],
    reason: 'Sound old paint is washed and sanded dull.',
    trust: 'practice',
    source: PRACTICE,
  },
];
