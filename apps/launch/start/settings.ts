import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { databaseAddress, readEnvironment, wholeNumber } from '#host/environment.ts';
import { publicAt, secretKey, serviceRules, serviceVariables } from '#host/service-variables.ts';

export const yards = { demo: 'demo-yard.json', one: 'yard-of-one.json' } as const;
export type YardChoice = keyof typeof yards;
/** `none`: an empty database stays empty, for a yard of one's own. */
const choices = ['demo', 'one', 'none'] as const;

export const usage = `npm start [-- --yard demo|one|none]

  --yard   which yard an empty database gets: "demo" (six builders, three boats; the default)
           or "one" (one person who is foreman, builder and owner); "none" leaves it empty

Environment: PORT (3000), HOST (127.0.0.1), CUREWRIGHT_YARD (as --yard), CUREWRIGHT_FOLDER
(.curewright), DATABASE_URL and MIGRATE_DATABASE_URL (a PostgreSQL of your own), and the others
in README.md, "Configuration".
`;

export interface Settings {
  readonly yard: YardChoice | 'none';
  readonly host: string;
  readonly port: number;
  /** How others than this machine come to it, in words; null: not at all. */
  readonly publicAt: string | null;
  /** Data of the embedded PostgreSQL, the key of the service, mails that are not sent, photos, the logs. */
  readonly folder: string;
  /** The key was given; otherwise the folder keeps one. */
  readonly hasSecretKey: boolean;
  readonly mailFolder: string;
  readonly photoFolder: string;
  /** What is given of a database that runs already; null for the embedded one. */
  readonly database: { readonly serviceUrl: string; readonly ownerUrl: string | null } | null;
  readonly allowPublicDemo: boolean;
  /** Of the first plan. */
  readonly planSeconds: number;
}

/** All that the api will read as well, so that what is wrong is said before anything is begun. */
const environment = z.object({
  ...serviceVariables.shape,
  DATABASE_URL: databaseAddress.optional(),
  SECRET_KEY: secretKey.optional(),
  MIGRATE_DATABASE_URL: databaseAddress.optional(),
  CUREWRIGHT_YARD: z.enum(choices).default('demo'),
  CUREWRIGHT_FOLDER: z.string().default('.curewright'),
  CUREWRIGHT_PLAN_SECONDS: wholeNumber(1, 600).default(4),
});

type Environment = Readonly<Record<string, string | undefined>>;

export function readSettings(args: readonly string[], env: Environment): Settings | 'help' {
  const { values } = argumentsOf(args);
  if (values.help === true) return 'help';
  const { yard } = values;
  const folder = orElse(env['CUREWRIGHT_FOLDER'], '.curewright');
  const mailFolder = orElse(env['MAIL_FOLDER'], join(folder, 'mail'));
  const photoFolder = orElse(env['PHOTO_FOLDER'], join(folder, 'photos'));
  const {
    DATABASE_URL: serviceUrl,
    MIGRATE_DATABASE_URL: ownerUrl,
    ...rest
  } = readEnvironment(
    environment,
    { ...env, MAIL_FOLDER: mailFolder, ...(yard === undefined ? {} : { CUREWRIGHT_YARD: yard }) },
    yard === undefined ? {} : { CUREWRIGHT_YARD: '--yard' },
    serviceRules,
  );
  return {
    yard: rest.CUREWRIGHT_YARD,
    host: rest.HOST,
    port: rest.PORT,
    publicAt: publicAt(rest.HOST, rest.PUBLIC_URL),
    folder,
    hasSecretKey: rest.SECRET_KEY !== undefined,
    mailFolder,
    photoFolder,
    database: serviceUrl === undefined ? null : { serviceUrl, ownerUrl: ownerUrl ?? null },
    allowPublicDemo: rest.ALLOW_PUBLIC_DEMO,
    planSeconds: rest.CUREWRIGHT_PLAN_SECONDS,
  };
}

/** An empty variable is as good as none. */
const orElse = (value: string | undefined, usual: string): string =>
  value === undefined || value === '' ? usual : value;

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
