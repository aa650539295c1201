import { parseArgs } from 'node:util';
import { z } from 'zod';
import { databaseAddress, readEnvironment, wholeNumber } from '#host/environment.ts';

export const yards = { demo: 'demo-yard.json', one: 'yard-of-one.json' } as const;
export type YardChoice = keyof typeof yards;

export const usage = `npm start [-- --yard demo|one]

  --yard   which yard an empty database gets: "demo" (six builders, three boats; the default)
           or "one" (one person who is foreman, builder and owner)

Environment: PORT (3000), HOST (127.0.0.1), CUREWRIGHT_YARD (as --yard), CUREWRIGHT_FOLDER
(.curewright), DATABASE_URL and MIGRATE_DATABASE_URL (a PostgreSQL of your own).
`;

export interface Settings {
  readonly yard: YardChoice;
  readonly host: string;
  readonly port: number;
  /** Data of the embedded PostgreSQL, and the logs. */
  readonly folder: string;
  /** What is given of a database that runs already; null for the embedded one. */
  readonly database: { readonly serviceUrl: string; readonly ownerUrl: string | null } | null;
  readonly allowPublicDemo: boolean;
  /** Of the first plan. */
  readonly planSeconds: number;
}

const environment = z.object({
  CUREWRIGHT_YARD: z.enum(['demo', 'one']).default('demo'),
  CUREWRIGHT_FOLDER: z.string().min(1).default('.curewright'),
  CUREWRIGHT_PLAN_SECONDS: wholeNumber(1, 600).default(4),
  HOST: z.string().min(1).default('127.0.0.1'),
  PORT: wholeNumber(0, 65_535).default(3000),
  DATABASE_URL: databaseAddress.optional(),
  MIGRATE_DATABASE_URL: databaseAddress.optional(),
  ALLOW_PUBLIC_DEMO: z.stringbool().default(false),
});

export function readSettings(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): Settings | 'help' {
  const { values } = argumentsOf(args);
  if (values.help === true) return 'help';
  const { yard } = values;
  const {
    DATABASE_URL: serviceUrl,
    MIGRATE_DATABASE_URL: ownerUrl = null,
    ...rest
  } = readEnvironment(
    environment,
    yard === undefined ? env : { ...env, CUREWRIGHT_YARD: yard },
    yard === undefined ? {} : { CUREWRIGHT_YARD: '--yard' },
  );
  return {
    yard: rest.CUREWRIGHT_YARD,
    host: rest.HOST,
    port: rest.PORT,
    folder: rest.CUREWRIGHT_FOLDER,
    database: serviceUrl === undefined ? null : { serviceUrl, ownerUrl },
    allowPublicDemo: rest.ALLOW_PUBLIC_DEMO,
    planSeconds: rest.CUREWRIGHT_PLAN_SECONDS,
  };
}

function argumentsOf(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: { yard: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
      allowPositionals: false,
    });
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    throw new Error(`${words}\n\n${usage}`, { cause: error });
  }
}
