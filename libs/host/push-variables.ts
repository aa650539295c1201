import { z } from 'zod';
import { flag } from './environment.ts';

const contactCure =
  'use mailto: and an address, or an https address, under which push services reach whoever runs the service';

/** What api and worker are told of notifications. */
export const pushVariables = z.object({
  /** RFC 8292, 2.1. */
  PUSH_CONTACT: z
    .string()
    .regex(/^(?:mailto:[^\s@]+@[^\s@]+|https:\/\/[^\s/]+\S*)$/, contactCure)
    .optional(),
  /** For tests: a push service of this machine, without TLS. */
  PUSH_TO_LOCAL: flag.default(false),
});

interface Known {
  readonly PUSH_CONTACT?: string | undefined;
  readonly PUBLIC_URL?: URL | undefined;
  readonly MAIL_FROM?: string | undefined;
}

/** The contact: as it was set, else the service's own address, else the sender of its mails. */
export function pushContact({ PUSH_CONTACT, PUBLIC_URL, MAIL_FROM }: Known): string {
  if (PUSH_CONTACT !== undefined) return PUSH_CONTACT;
  if (PUBLIC_URL?.protocol === 'https:') return PUBLIC_URL.origin;
  const sender = /<([^<>]+)>$/.exec(MAIL_FROM ?? '')?.[1] ?? MAIL_FROM;
  return `mailto:${sender ?? 'curewright@localhost'}`;
}
