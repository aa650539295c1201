import { gunzipSync, gzipSync } from 'node:zlib';
import { z } from 'zod';
import { canonical, fnv64, problemHash } from '#planning/compile/trace/hash.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { upgradeProblem } from '#scheduling/model/upgrade.ts';
import type { Transaction } from '../client.ts';

const versionSchema = z.object({ version: z.int() });

interface PackedProblem {
  readonly hash: string;
  readonly gzip: Uint8Array<ArrayBuffer>;
}

const packed = new WeakMap<Problem, PackedProblem>();

/**
 * The problem as it is stored. Hash and gzip of the demo's 3 MB took 0.76 s on a busy machine: a
 * caller with time before its transaction may call this then, and `saveProblem` finds it done.
 */
export function packProblem(problem: Problem): PackedProblem {
  const known = packed.get(problem);
  if (known !== undefined) return known;
  const fresh = {
    hash: problemHash(problem),
    gzip: Uint8Array.from(gzipSync(JSON.stringify(problem))),
  };
  packed.set(problem, fresh);
  return fresh;
}

/** Stores a compiled problem once, however many plans it gets. Returns its hash. */
export async function saveProblem(
  tx: Transaction,
  yardId: string,
  problem: Problem,
): Promise<string> {
  const { hash, gzip } = packProblem(problem);
  await tx.compiledProblem.createMany({ data: [{ yardId, hash, gzip }], skipDuplicates: true });
  return hash;
}

/** The problem, in the version of now, and the version in which it was stored. */
export function unpackProblem(row: { readonly hash: string; readonly gzip: Uint8Array }): {
  readonly problem: Problem;
  readonly version: number;
} {
  const stored: unknown = JSON.parse(gunzipSync(row.gzip).toString('utf8'));
  if (fnv64(canonical(stored)) !== row.hash)
    throw new Error(`The stored problem ${row.hash} is damaged`);
  const { version } = versionSchema.parse(stored);
  return { problem: upgradeProblem(stored), version };
}
