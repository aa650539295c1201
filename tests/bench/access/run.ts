import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { z } from 'zod';
import type { Row } from '../bench.ts';
import { root } from '../machine.ts';

const rowSchema = z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null()]));

/** The unit's row, measured by a process of its own: `program` prints it. */
export async function measured(
  unit: string,
  program = 'tests/bench/access/measure.ts',
): Promise<Row> {
  const hook = ['--import', './apps/launch/ts-hook.mjs'];
  const { stdout } = await promisify(execFile)(process.execPath, [...hook, program, unit], {
    cwd: root,
    maxBuffer: 2 ** 24,
  });
  return { unit, ...rowSchema.parse(JSON.parse(stdout.trim().split('\n').at(-1) ?? '')) };
}

/** What rows of the service depend on. */
export const measures = [
  'apps/api/src/**/*.ts',
  'libs/{access,persistence}/**/*.ts',
  'prisma/**/*.{prisma,sql}',
  'tests/bench/access/*.ts',
];
