import { hash, parseOptions, verify } from '@node-rs/argon2';

/**
 * argon2id (the library's default) at the least that the OWASP Password Storage Cheat Sheet
 * recommends: 19 MiB, two passes, one lane.
 */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** So that whoever types a letter with its accent on another keyboard gets in: SP 800-63B, 3.1.1.2. */
const normal = (password: string): string => password.normalize('NFKC');

export function hashPassword(password: string): Promise<string> {
  return hash(normal(password), cost);
}

/** Made at the start: the first stranger would else wait longer than the next. */
const decoy = hashPassword('nobody has this password');

/** An unknown account takes as long as a wrong password, so that the time tells nothing. */
export async function passwordMatches(stored: string | null, password: string): Promise<boolean> {
  const matches = await verify(stored ?? (await decoy), normal(password));
  return stored !== null && matches;
}

/** Made at a lower cost or by another algorithm than today's: to be hashed anew when it is next typed. */
export function isWeaker(stored: string): boolean {
  if (!stored.startsWith('$argon2id$v=19$')) return true;
  const { memoryCost, timeCost, parallelism } = parseOptions(stored);
  return memoryCost < cost.memoryCost || timeCost < cost.timeCost || parallelism < cost.parallelism;
}
