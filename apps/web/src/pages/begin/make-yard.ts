import { api, asked } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { findOut } from '../../session/session.ts';
import type { YardFile } from './new-yard.ts';

/** Makes the yard as a whole or not at all; gives its id. Throws a `Problem`. */
export async function makeYard(file: YardFile): Promise<string> {
  const { id } = await asked(api.POST('/api/v1/yards', { body: file }));
  await findOut();
  return id;
}

/** As `makeYard`; where another yard has the id already, another like it is taken. */
export async function makeYardAnyhow(file: YardFile): Promise<string> {
  try {
    return await makeYard(file);
  } catch (error) {
    if (problemOf(error).code !== 'record.exists') throw error;
    const more = crypto.randomUUID().slice(0, 4);
    return makeYard({ ...file, id: `${file.id}-${more}` });
  }
}
