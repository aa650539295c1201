/** What the service is told at its start; `environment.ts` reads it, `defaults.ts` fills it for tests. */
export interface Config {
  readonly databaseUrl: string;
  /** 0: any free one. */
  readonly port: number;
  readonly host: string;
  /**
   * Where browsers find it: links of mails, the origin of passkeys, what counts as our own page. No
   * path. With port 0 its port is right from when the service listens, so read it when it is needed.
   */
  readonly publicUrl: URL;
  /** The session cookie is sent over TLS only. */
  readonly secureCookie: boolean;
  /** 32 bytes. */
  readonly secretKey: Uint8Array;
  /** How many proxies stand before it, each of which adds to X-Forwarded-For. */
  readonly trustProxy: number;
  readonly mail: { readonly smtpUrl: string } | { readonly folder: string };
  readonly mailFrom: string;
  /** Pictures of snags; all processes of the service share it. */
  readonly photoFolder: string;
  /** What `npm run build` makes of apps/web. */
  readonly screensFolder: string;
  readonly sessionIdleMinutes: number;
  readonly sessionDays: number;
  /** GraphQL tells its schema. */
  readonly introspection: boolean;
  /** Of one caller. */
  readonly requestsPerMinute: number;
  /** Before an account has to wait; an address has `addressShare` times as many. */
  readonly signInAttempts: number;
  readonly allowPublicDemo: boolean;
  /** For tests: notifications may go to this machine, without TLS. */
  readonly pushToLocal: boolean;
  readonly timeouts: DatabaseTimeouts;
}

/** Of every connection to the database: when the server gives up. */
export interface DatabaseTimeouts {
  readonly statementMs: number;
  readonly lockMs: number;
  /** Of a transaction that does nothing. */
  readonly idleMs: number;
}

export const configToken = Symbol('config');
