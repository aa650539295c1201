/**
 * `node --import ./apps/launch/ts-hook.mjs tests/bench/live/measure.ts UNIT` prints the unit's row
 * as JSON, in a process of its own.
 */
import 'reflect-metadata';
// First: it listens to connections from their beginning.
import './recorded.ts';
import { claims } from './claims.ts';
import { fanOut } from './fan-out.ts';
import { readyList } from './ready-list.ts';
import { replan } from './replan.ts';

const units = new Map([
  ['claims in a yard of 800', () => claims(800)],
  ['claims in a yard of 8000', () => claims(8000)],
  ['ready list of 800', () => readyList(800)],
  ['ready list of 8000', () => readyList(8000)],
  ['500 subscribers and alarms', fanOut],
  ['first candidate of 800', () => replan(800)],
]);

const unit = units.get(process.argv[2] ?? '');
if (unit === undefined) throw new Error(`one of: ${[...units.keys()].join(', ')}`);
process.stdout.write(`${JSON.stringify(await unit())}\n`);
process.exit(0);
