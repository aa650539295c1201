import { z } from 'zod';
import { TRUSTS } from '#cure/evidence/evidence.ts';

/** How far a number can be trusted, as plans and answers say it. */
export const trustSchema = z.enum(TRUSTS);
