import type { Acted, Acting } from './acting.ts';
import { claim, join, leave, release } from './claiming.ts';
import type { WorkCommand } from './commands.ts';
import type { TaskLife } from './life.ts';
import { abandon, failBatch, finish, pause, progress, resume, start } from './working.ts';

/**
 * What a report of work makes of a task's life. Whether the task is ready and its crew fit and idle
 * is judged before. To take a report back is `undo`'s. Throws `claim.state`, `claim.taken`,
 * `claim.not-ready`, `claim.crew`, `claim.lapsed`, `access.role`; `input.field` of its moment.
 */
export function act(
  life: TaskLife,
  command: Exclude<WorkCommand, { kind: 'undo' }>,
  acting: Acting,
): Acted {
  switch (command.kind) {
    case 'claim':
      return claim(life, command.crew, acting);
    case 'join':
      return join(life, command.member, acting);
    case 'leave':
      return leave(life, command.member, acting);
    case 'release':
      return release(life, command.leftMinutes, acting);
    case 'start':
      return start(life, acting);
    case 'pause':
      return pause(life, command.leftMinutes, acting);
    case 'resume':
      return resume(life, acting);
    case 'progress':
      return progress(life, command.leftMinutes, acting);
    case 'finish':
      return finish(life, acting);
    case 'abandon':
      return abandon(life, command.reason, acting);
    case 'fail-batch':
      return failBatch(life, command.reason, acting);
  }
}
