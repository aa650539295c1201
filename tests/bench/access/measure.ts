/**
 * `node --import ./apps/launch/ts-hook.mjs tests/bench/access/measure.ts UNIT` prints the unit's row
 * as JSON: the service has decorators, which the process of the benches does not read.
 */
import 'reflect-metadata';
import { readyBesides } from './ready.ts';
import { besideMissing, hashing, signingIn } from './sign-in.ts';

const units = new Map([
  ['hashing', hashing],
  ['signing in', signingIn],
  ['beside a missing record', besideMissing],
  ['ready list of 120 tasks', () => readyBesides(120)],
  ['ready list of 300 tasks', () => readyBesides(300)],
]);

const unit = units.get(process.argv[2] ?? '');
if (unit === undefined) throw new Error(`one of: ${[...units.keys()].join(', ')}`);
process.stdout.write(`${JSON.stringify(await unit())}\n`);
process.exit(0);
