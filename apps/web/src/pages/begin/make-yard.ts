import { freshKey } from '../../api/fresh-key.ts';
import { api, asked } from '../../api/client.ts';
import { Problem, problemOf } from '../../api/problem.ts';
import { same } from '../../form/same.ts';
import { findOut, membershipIn } from '../../session/session.ts';
import { begin as texts } from '../../texts/begin.ts';
import type { YardFile } from './new-yard.ts';

/** What was sent and not answered: it may have been made. The moment from which it plans is no part of it. */
const unanswered = new Map<string, YardFile>();
const unplanned = (file: YardFile) => ({ ...file, planFrom: '' });

/** Makes the yard as a whole or not at all; gives its id. Throws a `Problem`. */
export async function makeYard(file: YardFile): Promise<string> {
  const { id } = file;
  const sent = unanswered.get(id);
  // One that is theirs already is none that an answer is missing of.
  if (membershipIn(id) === undefined) unanswered.set(id, sent ?? file);
  try {
    await asked(api.POST('/api/v1/yards', { body: file }));
  } catch (error) {
    const { status, code } = problemOf(error);
    if (code === 'record.exists' && sent !== undefined) {
      await findOut();
      if (membershipIn(id) !== undefined) return found(file, sent);
    }
    if (status === 400 || status === 409) unanswered.delete(id);
    throw error;
  }
  unanswered.delete(id);
  await findOut();
  return id;
}

/** It was made, and only its answer lost. */
function found(file: YardFile, sent: YardFile): string {
  unanswered.delete(file.id);
  if (same(unplanned(file), unplanned(sent))) return file.id;
  const detail = texts.madeBefore(sent.name);
  throw new Problem(409, { code: 'yard.made', title: detail, detail, cure: texts.madeBeforeCure });
}

/** By the id that another yard has: the one taken instead, until it is answered. */
const instead = new Map<string, string>();

/** As `makeYard`; where another yard has the id already, another like it is taken. */
export async function makeYardAnyhow(file: YardFile): Promise<string> {
  const other = instead.get(file.id);
  if (other !== undefined) return makeYardAs(other, file);
  try {
    return await makeYard(file);
  } catch (error) {
    if (problemOf(error).code !== 'record.exists') throw error;
    return makeYardAs(`${file.id}-${freshKey().slice(0, 4)}`, file);
  }
}

async function makeYardAs(id: string, file: YardFile): Promise<string> {
  instead.set(file.id, id);
  try {
    return await makeYard({ ...file, id });
  } finally {
    if (!unanswered.has(id)) instead.delete(file.id);
  }
}
