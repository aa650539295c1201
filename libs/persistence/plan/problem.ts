import { gunzipSync, gzipSync } from 'node:zlib';
import { problemHash } from '#planning/compile/hash.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { Transaction } from '../client.ts';

/** Stores a compiled problem once, however many plans it gets. Returns its hash. */
export async function saveProblem(
  tx: Transaction,
  yardId: string,
  problem: Problem,
): Promise<string> {
  const hash = problemHash(problem);
  const gzip = Uint8Array.from(gzipSync(JSON.stringify(problem)));
  await tx.compiledProblem.createMany({ data: [{ yardId, hash, gzip }], skipDuplicates: true });
  return hash;
}

export function unpackProblem(row: { readonly hash: string; readonly gzip: Uint8Array }): Problem {
  const problem = JSON.parse(gunzipSync(row.gzip).toString('utf8')) as Problem;
  if (problemHash(problem) !== row.hash)
    throw new Error(`The stored problem ${row.hash} is damaged`);
  return problem;
}
