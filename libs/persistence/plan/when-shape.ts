import { z } from 'zod';

export const whenSchema = z.object({
  at: z.iso.datetime().describe('UTC.'),
  local: z.string().describe('The wall clock of the yard, `2026-11-30T07:00`.'),
});
