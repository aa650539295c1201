import { HARD_RULES } from './rules-hard.ts';
import { OPEN_RULES } from './rules-open.ts';
import { REFUSALS } from './rules-refused.ts';
import type { BondRule } from './rule.ts';

/** What a coat gets from a surface: the first rule that holds is the answer, and for every surface one does. */
export const BOND_RULES: readonly BondRule[] = [...REFUSALS, ...OPEN_RULES, ...HARD_RULES];
