import { readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, vi } from 'vitest';

export interface Mailbox {
  /** For the service's configuration: `mail: { folder }`. */
  readonly folder: string;
  /** Texts of all mails to the address so far, the oldest first. */
  to(email: string): Promise<string[]>;
  /** Waits for the mail number `count` to the address, and gives its text. */
  wait(email: string, count?: number): Promise<string>;
}

/** The folder into which a service without a mail server writes. */
export function mailbox(): Mailbox {
  const folder = join(tmpdir(), `curewright-mails-${crypto.randomUUID()}`);
  afterAll(() => rm(folder, { recursive: true, force: true }));

  const to = async (email: string): Promise<string[]> => {
    const names = await readdir(folder).catch(() => []);
    const files = names.filter((name) => name.endsWith('.eml')).sort();
    const texts = await Promise.all(files.map((name) => readFile(join(folder, name), 'utf8')));
    return texts.filter((text) => text.includes(`\nTo: ${email}`)).map(decoded);
  };
  return {
    folder,
    to,
    wait: (email, count = 1) =>
      vi.waitFor(
        async () => {
          const text = (await to(email)).at(count - 1);
          if (text === undefined) throw new Error(`there are not ${count} mails to ${email} yet`);
          return text;
        },
        { timeout: 20_000, interval: 20 },
      ),
  };
}

/** The secret of the link that a mail carries. */
export function tokenIn(text: string): string {
  const token = /#([\w.-]{20,})/.exec(text)?.[1];
  if (token === undefined) throw new Error(`there is no link in:\n${text}`);
  return token;
}

/** Quoted-printable (RFC 2045, 6.7), where it was used. */
function decoded(mail: string): string {
  const text = mail.replaceAll('\r\n', '\n');
  if (!/^Content-Transfer-Encoding: quoted-printable$/im.test(text)) return text;
  const bytes = text
    .replaceAll('=\n', '')
    .replaceAll(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)));
  return Buffer.from(bytes, 'latin1').toString();
}
