import { compile, type Compiled, type CompileInput } from '../compile/compile.ts';
import { makeWorkload } from '../workload/make.ts';
import type { Task, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { validate } from '#scheduling/model/validate.ts';
import { smallYard } from './small-yard.ts';

interface Circumstances {
  /** What has begun, or is set by the foreman. */
  readonly tasks?: Readonly<Record<string, Partial<Task>>>;
  readonly now?: string;
  readonly published?: CompileInput['published'];
}

/** Compiles a changed small yard; throws where the engine would not take the problem. */
export function compiled(
  change: (draft: Yard) => void = () => undefined,
  { tasks = {}, now, published }: Circumstances = {},
): Compiled {
  const yard = smallYard(change);
  const made = makeWorkload(yard);
  const workload: Workload = {
    ...made,
    tasks: made.tasks.map((task) => ({ ...task, ...tasks[task.id] })),
  };
  const found = compile({ yard, workload, now, published });
  const wrong = validate(found.problem).at(0);
  if (wrong !== undefined) throw new Error(`${wrong.path}: ${wrong.message}`);
  return found;
}
