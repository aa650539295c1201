/**
 * `node --import ./apps/launch/ts-hook.mjs tests/bench/web/measure.ts UNIT` prints the unit's row as
 * JSON, in a process of its own.
 */
import 'reflect-metadata';
import { firstLoad } from './first-load.ts';
import { throughTheWeek } from './week.ts';

const units = new Map([
  ['first load', firstLoad],
  ['a week of 800 tasks', throughTheWeek],
]);

const unit = units.get(process.argv[2] ?? '');
if (unit === undefined) throw new Error(`one of: ${[...units.keys()].join(', ')}`);
process.stdout.write(`${JSON.stringify(await unit())}\n`);
process.exit(0);
