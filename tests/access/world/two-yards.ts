import { afterAll, beforeAll } from 'vitest';
import { testDatabase } from '../../support/database.ts';
import { mailbox } from '../../support/mails.ts';
import { watchStatements } from '../requests/statements.ts';
import { makeWorld, type World } from './make-world.ts';

/** The two yards in a database of the test file's own, while its tests run. */
export function twoYards(): () => World {
  const database = testDatabase();
  const mails = mailbox();
  const undo = watchStatements();
  let made: Awaited<ReturnType<typeof makeWorld>> | undefined;
  beforeAll(async () => {
    made = await makeWorld({ database, mailFolder: mails.folder });
  }, 300_000);
  afterAll(async () => {
    await made?.close();
    undo();
  });
  return () => {
    if (!made) throw new Error('the yards are made before the first test, not earlier');
    return made.world;
  };
}
