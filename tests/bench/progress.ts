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
import { isDeepStrictEqual } from 'node:util';
import type { Row } from './bench.ts';
import { commitNow, type Machine, machineNow, root } from './machine.ts';

const folder = join(root, '.curewright', 'bench');
/** Of benches that are longer than one sitting; it goes with the code from machine to machine. */
export const lasting = join(root, 'tests', 'bench', 'unfinished');

/** Changes when the engine does, or what it is measured by: rows of two of them are not mixed. */
export function engineHash(measures: readonly string[]): string {
  const hash = createHash('sha256');
  const files = globSync(['libs/{scheduling,host}/**/*.ts', ...measures], { cwd: root });
  for (const file of files.sort()) {
    if (!file.endsWith('.test.ts')) hash.update(file).update(readFileSync(join(root, file)));
  }
  return hash.digest('hex');
}

/** What rows were made with; the rows after it in the file are its own. */
export interface Made {
  readonly engine: string;
  /** Seconds beneath the bench's own limits; null: none. */
  readonly most: number | null;
  /** The commit that the engine was at, with a plus where it was changed since. */
  readonly commit: string;
  readonly from: string;
  readonly machine: Machine;
}

export interface ProgressOptions {
  /** Rows of before are dropped. */
  readonly fresh: boolean;
  /** Rows of another engine or machine stay; the report names all. */
  readonly keep: boolean;
  readonly most: number | null;
  readonly measures: readonly string[];
}

/**
 * The rows of an unfinished run, kept in a file of `place` (git-ignored unless told) so that a bench
 * can be done in pieces.
 * Rows of another engine or machine are dropped unless asked to stay, those under another limit always.
 */
export class Progress {
  readonly rows = new Map<string, Row>();
  /** What the rows were made with, the present last. */
  readonly made: Made[] = [];
  private readonly file: string;

  constructor(name: string, options: ProgressOptions, place = folder) {
    const { fresh, keep, most, measures } = options;
    this.file = join(place, `${name}.jsonl`);
    mkdirSync(place, { recursive: true });
    const engine = engineHash(measures);
    if (!fresh) this.read();
    const last = this.made.at(-1);
    const machine = machineNow();
    const isSame = last?.engine === engine && isDeepStrictEqual(last.machine, machine);
    if (isSame && last.most === most) return;
    const present = { engine, most, commit: commitNow(), from: new Date().toISOString(), machine };
    if (last !== undefined && keep && last.most === most) {
      this.made.push(present);
      appendFileSync(this.file, `${JSON.stringify(present)}\n`);
      return;
    }
    this.rows.clear();
    this.made.splice(0, this.made.length, present);
    writeFileSync(this.file, `${JSON.stringify(present)}\n`);
  }

  private read(): void {
    const text = existsSync(this.file) ? readFileSync(this.file, 'utf8') : '';
    // A line that was cut off is a line all the same: the next one does not go on with it.
    if (text !== '' && !text.endsWith('\n')) appendFileSync(this.file, '\n');
    for (const line of text.split('\n').filter(Boolean)) {
      const said = parsed(line);
      if (said === null) continue;
      if ('unit' in said) this.rows.set(said.unit, said.row);
      else this.made.push(said);
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

/** Null: a line that was cut off, or is of another form than today's. */
function parsed(line: string): Made | { unit: string; row: Row } | null {
  try {
    return JSON.parse(line) as Made | { unit: string; row: Row };
  } catch {
    return null;
  }
}
