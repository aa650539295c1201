import { hash, verify } from '@node-rs/argon2';

/** OWASP Password Storage Cheat Sheet: argon2id (the library's default), 19 MiB, two passes, one lane. */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export function hashPassword(password: string): Promise<string> {
  return hash(password, cost);
}

let decoy: Promise<string> | undefined;

/** An unknown account takes as long as a wrong password, so that the time tells nothing. */
export async function passwordMatches(stored: string | null, password: string): Promise<boolean> {
  decoy ??= hashPassword('nobody has this password');
  const matches = await verify(stored ?? (await decoy), password);
  return stored !== null && matches;
}
