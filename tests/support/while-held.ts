import { expect } from 'vitest';
import { withClient } from '#persistence/roles.ts';

/**
 * Of two at once the one that was first by a hair: `statements` are made and not yet committed when
 * `ask` is under way, and are once it waits for them.
 */
export function whileHeld<T>(
  ownerUrl: string,
  statements: readonly string[],
  ask: () => Promise<T>,
): Promise<T> {
  return withClient(ownerUrl, async (first) => {
    await first.query(`BEGIN; ${statements.join('; ')}`);
    const asked = ask();
    await expect
      .poll(
        async () => {
          const { rows } = await first.query<{ waiting: boolean }>(
            `SELECT count(*) > 0 AS waiting FROM pg_stat_activity
           WHERE datname = current_database() AND pg_backend_pid() = ANY (pg_blocking_pids(pid))`,
          );
          return rows[0].waiting;
        },
        // What is asked may first have to hash a password, on a busy machine.
        { timeout: 20_000 },
      )
      .toBe(true);
    await first.query('COMMIT');
    return asked;
  });
}
