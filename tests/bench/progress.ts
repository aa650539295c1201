import { createHash } from 'node:crypto';
import {
  appendFileSync,
  existsSync,
  globSync,
  mkdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Row } from './bench.ts';

const root = new URL('../../', import.meta.url).pathname;
const folder = join(root, '.curewright', 'bench');

/** Changes when the engine does, or what it is measured by: rows of two of them are not mixed. */
function engineHash(measures: readonly string[]): string {
  const hash = createHash('sha256');
  const files = globSync(['libs/scheduling/**/*.ts', ...measures], { cwd: root });
  for (const file of files.sort()) {
    if (!file.endsWith('.test.ts')) hash.update(file).update(readFileSync(join(root, file)));
  }
  return hash.digest('hex');
}

/** The rows of an unfinished run, kept in a git-ignored file so that a bench can be done in pieces. */
export class Progress {
  readonly rows = new Map<string, Row>();
  private readonly file: string;

  /** `measures`: globs of files, from the project's root, that the rows depend on beside the engine. */
  constructor(name: string, fresh: boolean, measures: readonly string[]) {
    this.file = join(folder, `${name}.jsonl`);
    const engine = engineHash(measures);
    const [head, ...lines] = existsSync(this.file)
      ? readFileSync(this.file, 'utf8').split('\n')
      : [''];
    if (fresh || head !== engine) {
      mkdirSync(folder, { recursive: true });
      writeFileSync(this.file, `${engine}\n`);
      return;
    }
    for (const line of lines.filter(Boolean)) {
      const { unit, row } = JSON.parse(line) as { unit: string; row: Row };
      this.rows.set(unit, row);
    }
  }

  add(unit: string, row: Row): void {
    this.rows.set(unit, row);
    appendFileSync(this.file, `${JSON.stringify({ unit, row })}\n`);
  }

  /** The run is complete: the next one starts anew. */
  close(): void {
    rmSync(this.file);
  }
}
