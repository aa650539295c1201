import { createHash } from 'node:crypto';
import {
  appendFileSync,
  existsSync,
  globSync,
  mkdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '#scheduling/model/problem.ts';
import { oracle, type Verdict } from '../../oracle/oracle.ts';
import type { Limits } from '../../support/minizinc/solve.ts';

const root = new URL('../../../', import.meta.url).pathname;
const folder = join(root, '.curewright', 'bench');

/** Changes when the oracle does: its text, the solvers, or their limit. */
function oracleHash(limits: Limits): string {
  const hash = createHash('sha256').update(JSON.stringify(limits));
  const own = globSync(
    [
      'tests/oracle/{oracle,plan,dzn}.ts',
      'tests/oracle/{data,ways}/*.ts',
      'tests/oracle/model/*.mzn',
      'tests/support/minizinc/*.ts',
    ],
    { cwd: root },
  );
  for (const file of [...own.sort(), 'node_modules/minizinc/package.json'])
    hash.update(file).update(readFileSync(join(root, file)));
  return hash.digest('hex');
}

const keyOf = (problem: Problem): string =>
  createHash('sha256').update(JSON.stringify(problem)).digest('hex');

/**
 * The oracle's answers, kept in a git-ignored file: they depend on the problem and the oracle
 * alone, so that a change of the engine asks for none of them again.
 */
export class Answers {
  private readonly kept = new Map<string, Verdict>();
  private readonly asked = new Map<string, Promise<Verdict>>();
  private readonly file: string;
  private readonly limits: Limits;

  constructor(limits: Limits) {
    this.limits = limits;
    this.file = join(folder, 'oracle-answers.jsonl');
    const own = oracleHash(limits);
    const [head, ...lines] = existsSync(this.file)
      ? readFileSync(this.file, 'utf8').split('\n')
      : [''];
    if (head !== own) {
      mkdirSync(folder, { recursive: true });
      writeFileSync(this.file, `${own}\n`);
      return;
    }
    for (const line of lines.filter(Boolean)) {
      const { key, verdict } = JSON.parse(line) as { key: string; verdict: Verdict };
      this.kept.set(key, verdict);
    }
  }

  /** The answer, or the promise of one that is being worked on. */
  ask(problem: Problem): Promise<Verdict> {
    const key = keyOf(problem);
    const known = this.kept.get(key);
    if (known !== undefined) return Promise.resolve(known);
    const running = this.asked.get(key);
    if (running !== undefined) return running;
    const verdict = this.solve(key, problem);
    this.asked.set(key, verdict);
    return verdict;
  }

  private async solve(key: string, problem: Problem): Promise<Verdict> {
    const verdict = await oracle(problem, this.limits);
    this.kept.set(key, verdict);
    appendFileSync(this.file, `${JSON.stringify({ key, verdict })}\n`);
    return verdict;
  }
}
