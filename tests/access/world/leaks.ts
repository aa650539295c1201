import type { Side } from './side.ts';

/**
 * What of a yard is in a text that did not ask for it: words that only that yard has, and ids of
 * its records that were not in the question. An answer may repeat what it was asked.
 */
export function leaksOf(side: Side): (question: string, answer: string) => string[] {
  const uuids = new Set(
    [...side.records.values()].flat().flatMap(({ id }) => (isUuid(id) ? [id] : [])),
  );
  const marked = new RegExp(`${side.mark}[a-z0-9._-]*`, 'g');
  return (question, answer) => {
    const secrets = answer.includes(side.secret) ? [side.secret] : [];
    const found = answer.match(marked)?.filter((id) => !question.includes(id)) ?? [];
    const ids =
      answer.match(anyUuid)?.filter((id) => uuids.has(id) && !question.includes(id)) ?? [];
    return [...secrets, ...found, ...ids];
  };
}

const anyUuid = /[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;
const isUuid = (id: string): boolean => id.length === 36 && /^[0-9a-f-]+$/.test(id);
