import type { BondRule } from './rule.ts';
import { ICS, PRACTICE, SURFACE_PREPARATION } from './sources.ts';

const DAY = 24 * 60;

const polyesters = ['polyester', 'vinyl-ester'] as const;
const chemical = { bond: 'chemical', preparation: [] } as const;
const later = { bond: 'wait', preparation: [], warnings: [] } as const;

/** Films that have not hardened, or are in the bond window of their own sheet. */
export const OPEN_RULES: readonly BondRule[] = [
  {
    ...later,
    id: 'still-wet',
    when: { stage: ['wet'] },
    reason: 'It is still wet: nothing may go on it before its bond window opens.',
    trust: 'practice',
    source: PRACTICE,
  },
  {
    ...later,
    id: 'too-soft-to-abrade',
    when: { stage: ['between'] },
    reason: 'Its bond window is over, and it is too soft to abrade yet: the paper would load.',
    trust: 'read',
    source:
      'West System Australia and Final Fairing & Finishing (002-740): sanding too early loads the paper',
  },
  {
    ...chemical,
    id: 'epoxy-on-tacky-epoxy',
    when: { substrate: ['epoxy'], stage: ['open'], next: ['epoxy'] },
    warnings: [],
    reason: 'Epoxy that is still tacky joins with the next coat as it is.',
    trust: 'read',
    source: SURFACE_PREPARATION,
  },
  {
    ...chemical,
    id: 'waxed-polyester-within-a-day',
    when: {
      substrate: polyesters,
      stage: ['open'],
      waxed: true,
      youngerThan: DAY,
      next: polyesters,
    },
    warnings: [
      'One maker has every waxed coat sanded before the next: where its sheet says so, do.',
    ],
    reason: 'Waxed polyester takes the next coat for 24 hours without grinding.',
    trust: 'read',
    source: `${ICS}, 602.2; a thread of iboats.com quoting a maker`,
  },
  {
    id: 'waxed-polyester-after-a-day',
    when: { substrate: polyesters, stage: ['open'], waxed: true, next: polyesters },
    bond: 'mechanical',
    preparation: [
      { kind: 'dewax' },
      { kind: 'abrade', grit: 80 },
      { kind: 'extract' },
      { kind: 'wipe' },
    ],
    warnings: [],
    reason: 'A day after it was laid waxed polyester is ground, after the wax has been taken off.',
    trust: 'read',
    source: `${ICS}, 602.2`,
  },
  {
    ...chemical,
    id: 'vinyl-ester-after-a-day',
    when: { substrate: ['vinyl-ester'], stage: ['open'], olderThan: DAY, next: polyesters },
    warnings: [
      'More than a day old: abrading it is prudent, even where its sheet has a longer window.',
    ],
    reason: 'Treated as polyester: in the window of its own sheet the next layer joins with it.',
    trust: 'practice',
    source: PRACTICE,
  },
  {
    ...chemical,
    id: 'polyester-after-five-days',
    when: { substrate: polyesters, stage: ['open'], olderThan: 5 * DAY, next: polyesters },
    warnings: [
      'More than five days old: class rules grind it, even where its sheet has a longer window.',
    ],
    reason: 'In the window of its own sheet the next layer joins with it.',
    trust: 'read',
    source: `${ICS}, 602.2`,
  },
  {
    ...chemical,
    id: 'polyester-on-open-polyester',
    when: { substrate: ['polyester'], stage: ['open'], next: polyesters },
    warnings: [],
    reason:
      'Unwaxed polyester joins with the next layer for up to five days: keep dirt, wax and water off it.',
    trust: 'read',
    source: `${ICS}, 602.2`,
  },
  {
    ...chemical,
    id: 'polyester-on-open-vinyl-ester',
    when: { substrate: ['vinyl-ester'], stage: ['open'], next: polyesters },
    warnings: [],
    reason: 'Treated as polyester: the next layer joins with it for a day.',
    trust: 'practice',
    source: PRACTICE,
  },
  {
    ...later,
    id: 'open-to-its-own-kind-only',
    when: { stage: ['open'] },
    reason: 'Only its own kind joins with it while it is open: wait until it is hard, then abrade.',
    trust: 'practice',
    source: PRACTICE,
  },
];
