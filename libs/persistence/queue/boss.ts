import { PgBoss } from 'pg-boss';
import { lasting, silentMs } from '../connection.ts';

export const queueSchema = 'pgboss';

/** `sender` only puts jobs in; `worker` also looks after the queue: lost jobs, old jobs. */
export type BossRole = 'sender' | 'worker';

export interface BossOptions {
  readonly role: BossRole;
  /** Told of what fails in the background, such as a lost connection; it is tried again. */
  readonly onError: (error: Error) => void;
  /** How long the server works on a statement, ms; default 15,000. */
  readonly statementMs?: number;
}

/** Seconds between two looks for jobs whose worker has died. */
const superviseSeconds = 2;

/**
 * A client of the job queue at `serviceUrl`, to be started and stopped. The tables are there
 * already (`installQueue`): the service role may not change them.
 */
export function createBoss(
  serviceUrl: string,
  { role, onError, statementMs = 15_000 }: BossOptions,
): PgBoss {
  // What pg-boss has no word for it hands on to the driver as it is.
  const driver = {
    ...lasting,
    statement_timeout: statementMs,
    query_timeout: statementMs + silentMs,
  };
  const boss = new PgBoss({
    ...driver,
    connectionString: serviceUrl,
    schema: queueSchema,
    application_name: `curewright-${role}`,
    max: role === 'worker' ? 4 : 2,
    migrate: false,
    createSchema: false,
    schedule: false,
    registerInstance: false,
    // Both need the owner's rights.
    reindex: false,
    monitorVacuum: false,
    // A queue declared with `notify` is looked at as soon as a job is committed.
    useListenNotify: role === 'worker',
    supervise: role === 'worker',
    superviseIntervalSeconds: superviseSeconds,
    monitorIntervalSeconds: superviseSeconds,
  });
  boss.on('error', onError);
  return boss;
}
