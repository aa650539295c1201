import { randomUUID } from 'node:crypto';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { createTransport } from 'nodemailer';
import type { Config } from '../config/config.ts';

/** A mail of plain text to one address. */
export interface Mail {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

/** Hands one mail on; throws where that is not possible. */
export interface Post {
  readonly deliver: (mail: Mail) => Promise<unknown>;
  readonly close: () => void;
}

export function postOf({ mail, mailFrom }: Pick<Config, 'mail' | 'mailFrom'>): Post {
  return 'smtpUrl' in mail ? smtpPost(mail.smtpUrl, mailFrom) : folderPost(mail.folder, mailFrom);
}

/** What is in a mail is text of ours: nothing of it may make the library read files or addresses. */
const closed = { disableFileAccess: true, disableUrlAccess: true };

/** Nobody waits for a mail, but a server that hangs must not be waited for without end either. */
const patience = { connectionTimeout: 10_000, greetingTimeout: 10_000, socketTimeout: 30_000 };

/** Over `smtp://` or `smtps://`; whoever gives a password there has it sent over TLS only. */
function smtpPost(url: string, from: string): Post {
  const requireTLS = new URL(url).password !== '';
  const transport = createTransport({ url, requireTLS, ...patience, ...closed }, { from });
  return {
    deliver: (mail) => transport.sendMail(mail),
    close: () => {
      transport.close();
    },
  };
}

/** Without a mail server: each mail as a file (RFC 5322) that mail programs open, the oldest first. */
function folderPost(folder: string, from: string): Post {
  const transport = createTransport({ streamTransport: true, buffer: true, ...closed }, { from });
  return {
    deliver: async (mail) => {
      const { message } = await transport.sendMail(mail);
      await mkdir(folder, { recursive: true, mode: 0o700 });
      const time = new Date().toISOString().replaceAll(':', '');
      const file = join(folder, `${time}-${randomUUID().slice(0, 8)}.eml`);
      // It holds a link for which no other secret is asked.
      await writeFile(`${file}.part`, message, { flag: 'wx', mode: 0o600 });
      await rename(`${file}.part`, file);
    },
    close: () => undefined,
  };
}
