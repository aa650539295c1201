import { beforeAll } from 'vitest';
import { testApi, type TestApi, type TestApiOptions } from './api.ts';
import { testDatabase, type TestDatabase } from './database.ts';
import { smallYard } from './small-yard.ts';

export const people = {
  foreman: 'ines@yard.test',
  builder: 'bram@yard.test',
  owner: 'odile@yard.test',
  stranger: 'stranger@yard.test',
} as const;

type Tokens = Record<keyof typeof people, string>;

export interface SmallYardApi {
  readonly api: TestApi;
  readonly database: TestDatabase;
  /** Sessions of the three in the yard `small`, and of a stranger to it. */
  readonly tokens: Readonly<Tokens>;
}

/** The service with the small yard in it, imported by its foreman, the others invited. */
export function smallYardApi(options: TestApiOptions = {}): SmallYardApi {
  const database = testDatabase();
  const api = testApi(database, options);
  const tokens: Tokens = { foreman: '', builder: '', owner: '', stranger: '' };
  beforeAll(async () => {
    for (const email of Object.values(people)) await api.addAccount(email);
    tokens.foreman = await api.signIn(people.foreman);
    tokens.builder = await api.signIn(people.builder);
    tokens.owner = await api.signIn(people.owner);
    tokens.stranger = await api.signIn(people.stranger);
    const { status, body } = await api.rest('POST', '/yards', {
      token: tokens.foreman,
      body: smallYard(),
    });
    if (status !== 201) throw new Error(`the small yard was refused: ${JSON.stringify(body)}`);
    await api.join('small');
  });
  return { api, database, tokens };
}
