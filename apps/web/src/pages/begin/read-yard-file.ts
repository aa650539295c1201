import { Problem } from '../../api/problem.ts';
import { begin as texts } from '../../texts/begin.ts';
import type { YardFile } from './new-yard.ts';

/** The JSON of a yard file; whether it is right is the service's to say. Throws a `Problem` in words. */
export function readYardFile(text: string): YardFile {
  if (text.trim() === '') throw refused(texts.nothingChosen, texts.nothingChosenCure);
  const read: unknown = parsed(text);
  if (!isObject(read)) throw refused(texts.notJson(texts.noObject), texts.notJsonCure);
  return asSent(read);
}

/** What a text seems to hold; null: no yard. */
export function summaryOf(text: string): { name: string; people: number; boats: number } | null {
  try {
    const read = parsed(text);
    if (!isObject(read) || read['format'] !== 'curewright-yard') return null;
    const { name, people, boats } = read;
    return {
      name: typeof name === 'string' ? name : texts.nameless,
      people: Array.isArray(people) ? people.length : 0,
      boats: Array.isArray(boats) ? boats.length : 0,
    };
  } catch {
    return null;
  }
}

/** The service takes nothing on trust: it judges every field and names what is wrong. */
const asSent = (read: unknown): YardFile => read as YardFile;

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw refused(texts.notJson(why), texts.notJsonCure);
  }
}

const refused = (detail: string, cure: string): Problem =>
  new Problem(400, { code: 'input.json', title: detail, detail, cure });
