/** One solve by this engine in a process of its own. Words: FILE SECONDS. Prints one JSON line. */
import { solveFile } from '../../../apps/cli/solve/solveFile.ts';

const [file, seconds] = process.argv.slice(2);
const { outcome } = solveFile(file, { kind: 'seconds', seconds: Number(seconds) }, 1);
process.stdout.write(`${JSON.stringify(outcome)}\n`);
