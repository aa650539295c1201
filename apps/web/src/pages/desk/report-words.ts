import type { Schema } from '../../api/client.ts';
import { units } from '../../session/session.ts';
import { span } from '../../show/time.ts';
import { quantity } from '../../show/units.ts';
import { desk as texts } from '../../texts/desk.ts';
import type { TaskNames } from './task-names.ts';

type Command = Schema<'ReportCommand'>;

/** What somebody's phone has told: `has finished lay-up, hatch (Petrel)`. */
export function reportWords(command: Command, names: TaskNames): string {
  const what =
    command.kind === 'reading' ? command.space : (names[command.taskId] ?? command.taskId);
  return texts.report.deed(texts.report.deeds[command.kind], what);
}

/** What else it says, by name. */
export function reportDetails(command: Command): readonly (readonly [string, string])[] {
  if (command.kind === 'reading')
    return [[texts.report.found, quantity('temperature', command.celsius, units.value)]];
  if (command.kind === 'tack-test')
    return [[texts.report.found, texts.report.findings[command.found]]];
  return [
    ...('reason' in command ? [[texts.report.reason, command.reason] as const] : []),
    ...('leftMinutes' in command ? [[texts.report.left, span(command.leftMinutes)] as const] : []),
  ];
}
