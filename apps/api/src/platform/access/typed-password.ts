import { z } from 'zod';

/**
 * A password as it is typed, old or new. 128 characters are taken (`password-policy.ts`), each of
 * which may be several units of UTF-16, and typed with its accents apart.
 */
export const typedPassword = z.string().min(1).max(512);
