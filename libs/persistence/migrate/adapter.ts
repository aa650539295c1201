import { PrismaPg } from '@prisma/adapter-pg';
import {
  ColumnTypeEnum,
  bindMigrationAwareSqlAdapterFactory,
  DriverAdapterError,
  type SqlDriverAdapter,
  type SqlMigrationAwareDriverAdapterFactory,
} from '@prisma/driver-adapter-utils';
import { DatabaseError, Pool } from 'pg';

/**
 * Columns of PostgreSQL's one-byte type "char" in the engine's questions to the catalogue,
 * which Prisma's adapter cannot read: asked for as text, and labelled as the character it is.
 */
const charColumns = /\bconstr\.contype(?= AS)|\bcon\.conf(?:del|upd)type(?=,)/g;
const charNames = new Set(['constraint_type', 'confdeltype', 'confupdtype']);

/**
 * The connection a schema engine works through. Prisma's own adapter cuts a script at every
 * `;`, also inside functions and comments. Here it goes to the server whole, as one simple
 * query: that is how the stock command line sends it, and makes a migration one transaction.
 * The shadow database is the same one, so for that give it an empty one.
 */
export function migrationAdapter(pool: Pool): object {
  const factory = new PrismaPg(pool);
  const connect = async (): Promise<SqlDriverAdapter> => {
    const adapter = await factory.connect();
    adapter.executeScript = async (script) => {
      await pool.query(script).catch((error: unknown) => {
        throw converted(error);
      });
    };
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (query) => {
      const sql = query.sql.replace(charColumns, '$&::text');
      const found = await queryRaw({ ...query, sql });
      if (sql === query.sql) return found;
      const columnTypes = found.columnTypes.map((type, column) =>
        charNames.has(found.columnNames[column]) ? ColumnTypeEnum.Character : type,
      );
      return { ...found, columnTypes };
    };
    return adapter;
  };
  const whole: SqlMigrationAwareDriverAdapterFactory = {
    provider: factory.provider,
    adapterName: factory.adapterName,
    connect,
    connectToShadowDb: connect,
  };
  return bindMigrationAwareSqlAdapterFactory(whole);
}

function converted(error: unknown): unknown {
  if (!(error instanceof DatabaseError)) return error;
  return new DriverAdapterError({
    kind: 'postgres',
    code: error.code ?? 'XX000',
    severity: error.severity ?? 'ERROR',
    message: error.message,
    detail: error.detail,
    column: error.column,
    hint: error.hint,
  });
}
