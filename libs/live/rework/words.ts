import type { Task } from '#planning/workload/workload.ts';
import { defects } from './defects.ts';
import { SCARF } from './extent.ts';
import type { Ground } from './ground-up.ts';
import { isWet } from './films.ts';
import type { Footing } from './footing.ts';
import type { Plight, ReworkInput } from './plight.ts';

const named = (tasks: readonly Task[]): string => tasks.map(({ name }) => `“${name}”`).join(', ');

function causeWords({ cause, defect }: ReworkInput, task: Task, part: string): string {
  const where = `“${task.name}” on ${part}`;
  if (cause === 'abandoned') return `${where} was left undone while it was wet`;
  if (cause === 'not-kicked') return `The batch of ${where} did not set`;
  return `${defects[defect ?? 'damage'].name} in ${where}`;
}

const square = (m2: number): string => `${m2.toFixed(2)} m²`;

function depthWords({ nature, cut, task }: Plight, { extent }: Ground, { bed }: Footing): string {
  if (bed === null) return '';
  const much =
    extent.faultM2 === null || extent.laidM2 === null
      ? 'all of it'
      : extent.scarfM > 0
        ? `${square(extent.faultM2)}, with a scarf of ${String(SCARF)}:1 ${square(extent.laidM2)}`
        : square(extent.faultM2);
  const off =
    cut.length === 0
      ? `the face of “${task.name}” is keyed`
      : `${named(cut)} ${cut.length === 1 ? 'comes' : 'come'} off down to ${bed.name}`;
  const soft = nature.soft ? 'what has not set is scraped off; then ' : '';
  return `${soft}${off} (${much})`;
}

function bondWords({ hold }: Footing): string {
  if (hold === null) return '';
  const { answer } = hold;
  const bond =
    answer.bond === 'refused' || answer.bond === 'wait'
      ? `By the rules it does not bond there: ${answer.reason} Decide before it is begun`
      : `The next film gets a ${answer.bond} bond there: ${answer.reason.replace(/\.$/, '')}`;
  const warned = answer.warnings.length === 0 ? '' : ` ${answer.warnings.join(' ')}`;
  return `${bond}.${warned} [${answer.source}]`;
}

/** A rework in sentences: what is wrong, how far down, what bond, what is done again. */
export function reworkWords(plight: Plight, ground: Ground, footing: Footing): string {
  const { input, task, again } = plight;
  const depth = depthWords(plight, ground, footing);
  const wet = again.some(isWet);
  const sentences = [
    `${causeWords(input, task, ground.part.name)}${depth === '' ? '' : `: ${depth}`}.`,
    bondWords(footing),
    again.length === 0 ? '' : `Done again: ${named(again)}.`,
    input.cause === 'snag' ? `How deep it goes: ${defects[input.defect ?? 'damage'].source}.` : '',
    wet ? 'The data sheets come first; of what carries load a surveyor has to say.' : '',
  ];
  return sentences.filter((one) => one !== '').join(' ');
}
