import { installQueue } from '../queue/install.ts';
import { withClient } from '../roles.ts';
import { withEngine } from './engine.ts';
import { migrationList, noFilter } from './files.ts';
import { grantToService } from './grants.ts';

/** Serialises deployments, which may come from several processes at once; any constant does. */
const deployLock = 7_214_007;

/**
 * Applies the migrations that the database at `ownerUrl` lacks, then the queue's
 * tables and the service's grants.
 * Nothing to do is no error. Returns the names of those applied. Throws where an applied
 * migration was edited since (the history only goes forward) or one fails.
 */
export async function deployMigrations(ownerUrl: string): Promise<readonly string[]> {
  const migrationsList = await migrationList();
  return withClient(ownerUrl, async (owner) => {
    await owner.query('SELECT pg_advisory_lock($1)', [deployLock]);
    const applied = await withEngine(ownerUrl, async (engine) => {
      const state = await engine.diagnoseMigrationHistory({
        migrationsList,
        optInToShadowDatabase: false,
        filters: noFilter,
      });
      if (state.editedMigrationNames.length > 0) {
        throw new Error(
          `Changed after it was applied: ${state.editedMigrationNames.join(', ')}. ` +
            'Restore it, and put the change into a new migration.',
        );
      }
      const done = await engine.applyMigrations({ migrationsList, filters: noFilter });
      return done.appliedMigrationNames;
    });
    await installQueue(ownerUrl);
    await grantToService(owner);
    return applied;
  });
}
