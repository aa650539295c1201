import { readEnvironment } from '#host/environment.ts';
import { publicAt, serviceRules, serviceVariables } from '#host/service-variables.ts';
import type { Config } from './config.ts';
import { builtScreens, databaseTimeouts, localUrl } from './defaults.ts';

/** Reads the environment once at start; throws one message that names every wrong variable. */
export function readConfig(env: Readonly<Record<string, string | undefined>>): Config {
  const read = readEnvironment(serviceVariables, env, {}, serviceRules);
  const { HOST: host, PORT: port, SMTP_URL: smtpUrl, MAIL_FOLDER: folder = '' } = read;
  const publicUrl = read.PUBLIC_URL ?? localUrl(port);
  return {
    databaseUrl: read.DATABASE_URL,
    port,
    host,
    publicUrl,
    secureCookie: read.SECURE_COOKIE ?? publicUrl.protocol === 'https:',
    secretKey: read.SECRET_KEY,
    trustProxy: read.TRUST_PROXY,
    mail: smtpUrl === undefined ? { folder } : { smtpUrl },
    mailFrom: read.MAIL_FROM ?? 'Curewright <curewright@localhost>',
    photoFolder: read.PHOTO_FOLDER,
    screensFolder: builtScreens,
    sessionIdleMinutes: read.SESSION_IDLE_MINUTES,
    sessionDays: read.SESSION_DAYS,
    introspection: read.GRAPHQL_INTROSPECTION ?? publicAt(host, publicUrl) === null,
    requestsPerMinute: read.REQUESTS_PER_MINUTE,
    signInAttempts: read.SIGN_IN_ATTEMPTS,
    allowPublicDemo: read.ALLOW_PUBLIC_DEMO,
    pushToLocal: read.PUSH_TO_LOCAL,
    timeouts: databaseTimeouts,
  };
}
