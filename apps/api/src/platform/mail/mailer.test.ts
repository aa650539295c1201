import { mkdtemp, readdir, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Logger } from '@nestjs/common';
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import { withDefaults } from '../config/defaults.ts';
import { type SmtpSink, smtpSink } from '../testing/smtp-sink.ts';
import { Mailer } from './mailer.ts';

const secret = 'https://yard.test/password#s3cr3t-of-the-link';
const mail = { to: 'ines@yard.test', subject: 'Grüße aus der Werft', text: `Öffne ${secret}\n` };

const logged: string[] = [];
let sink: SmtpSink;
let folder: string;

beforeAll(async () => {
  sink = await smtpSink();
  folder = await mkdtemp(join(tmpdir(), 'curewright-mails-'));
  vi.spyOn(Logger.prototype, 'error').mockImplementation((message: unknown) => {
    logged.push(String(message));
  });
});

afterAll(async () => {
  vi.restoreAllMocks();
  await sink.close();
  await rm(folder, { recursive: true });
});

beforeEach(() => {
  logged.length = 0;
});

const mailer = (where: { smtpUrl: string } | { folder: string }): Mailer =>
  new Mailer(withDefaults({ databaseUrl: '', mail: where, mailFrom: 'Werft <yard@yard.test>' }));

test('a mail goes out over SMTP as plain text', async () => {
  const over = mailer({ smtpUrl: sink.url });
  await over.send(mail);
  await over.beforeApplicationShutdown();
  const [taken] = sink.mails;
  expect(taken).toMatch(/^From: Werft <yard@yard\.test>$/m);
  expect(taken).toMatch(/^To: ines@yard\.test$/m);
  expect(taken).toMatch(/^Subject: =\?UTF-8\?Q\?Gr=C3=BC=C3=9Fe_aus_der_Werft\?=$/m);
  expect(taken).toMatch(/^Content-Type: text\/plain; charset=utf-8$/m);
  expect(taken).toContain('#s3cr3t-of-the-link');
});

test('a server that is busy is tried again, one that says no is not', async () => {
  const over = mailer({ smtpUrl: sink.url });
  const before = sink.offers;
  sink.refusals.push('451 busy, later');
  await over.send(mail);
  expect(sink.offers - before).toBe(2);

  sink.refusals.push('550 no such person');
  await expect(over.send(mail)).rejects.toMatchObject({ code: 'service.unavailable' });
  expect(sink.offers - before).toBe(3);
  expect(logged.join()).toContain('550 no such person');
  await over.beforeApplicationShutdown();
});

test('what is not waited for is logged when it fails, without the text, and finished at the end', async () => {
  const over = mailer({ smtpUrl: sink.url });
  sink.refusals.push('554 we do not like you');
  over.later('a link', () => over.send(mail));
  const before = sink.mails.length;
  over.later('another link', () => over.send(mail));
  await over.beforeApplicationShutdown();
  expect(sink.mails.length - before).toBe(1);
  expect(logged.join()).toMatch(/554 we do not like you.*a link: The mail could not be sent/s);
  expect(logged.join()).not.toContain('s3cr3t');
});

test('whoever waits for a mail does so for a while, and it goes on being tried', async () => {
  const over = mailer({ smtpUrl: sink.url });
  expect(await over.sentWithin(10_000, mail)).toBe(true);
  sink.refusals.push('550 no such person');
  expect(await over.sentWithin(10_000, mail)).toBe(false);
  const before = sink.mails.length;
  sink.refusals.push('451 busy, later');
  expect(await over.sentWithin(200, mail)).toBe(false);
  expect(sink.mails).toHaveLength(before);
  await over.beforeApplicationShutdown();
  expect(sink.mails).toHaveLength(before + 1);
});

test('without a server each is a file that only its owner reads', async () => {
  const into = mailer({ folder: join(folder, 'mail') });
  await into.send(mail);
  await into.send({ ...mail, to: 'bram@yard.test' });
  const files = await readdir(join(folder, 'mail'));
  expect(files).toHaveLength(2);
  const [first, second] = files.sort().map((name) => join(folder, 'mail', name));
  expect(await readFile(first, 'utf8')).toMatch(/^To: ines@yard\.test\r?$/m);
  expect(await readFile(second, 'utf8')).toMatch(/^To: bram@yard\.test\r?$/m);
  expect((await stat(first)).mode & 0o777).toBe(0o600);
  expect((await stat(join(folder, 'mail'))).mode & 0o777).toBe(0o700);
});

test('text cannot add a header or a recipient', async () => {
  const over = mailer({ smtpUrl: sink.url });
  await over.send({ ...mail, subject: 'Hello\r\nBcc: mallory@evil.test' });
  await over.beforeApplicationShutdown();
  expect(sink.mails.at(-1)).not.toMatch(/^Bcc:/m);
  expect(sink.mails.at(-1)).toMatch(/^Subject: Hello Bcc: mallory@evil\.test$/m);
});
