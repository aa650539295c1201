import type { INestApplicationContext } from '@nestjs/common';
import { publicAt } from '#host/service-variables.ts';
import { DomainError, fault } from '#kernel/error.ts';
import { demoAccount } from '#persistence/access/lookups.ts';
import type { Config } from '../config/config.ts';
import { Database } from '../database/database.ts';

/**
 * The demo's passwords are printed for all to read. Its accounts are those under `.invalid`
 * and `.example`, domains that nobody can have (RFC 2606). Behind a proxy it is PUBLIC_URL that
 * says whether others come to them.
 */
export async function refusePublicDemo(
  app: INestApplicationContext,
  { host, publicUrl, allowPublicDemo }: Config,
): Promise<void> {
  const where = publicAt(host, publicUrl);
  if (where === null || allowPublicDemo) return;
  const email = await app.get(Database).lookUp(demoAccount);
  if (email === null) return;
  throw new Error(
    `${where} can be reached from outside, and ${email} has a demo password. ` +
      'Remove the demo accounts, use HOST=127.0.0.1 and no public PUBLIC_URL, or set ALLOW_PUBLIC_DEMO=1.',
  );
}

/** As `demo_account_exists` in the database has it. */
const demoAddress = /[.](?:invalid|example)$/;

/**
 * Where others come to the service nobody makes an account that looks like the demo's: it would
 * keep the next start from coming up. Throws input.field.
 */
export function assertNoDemoAddress(
  email: string,
  { host, publicUrl, allowPublicDemo }: Pick<Config, 'host' | 'publicUrl' | 'allowPublicDemo'>,
): void {
  if (allowPublicDemo || publicAt(host, publicUrl) === null || !demoAddress.test(email)) return;
  const wrong = fault('input.field', 'email', 'nobody can have an address there', {
    value: email,
    cure: 'Use one that mails reach.',
  });
  throw new DomainError('input.field', `email: ${wrong.message}`, {
    cure: wrong.cure,
    faults: [wrong],
  });
}
