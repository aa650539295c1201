import { once } from 'node:events';
import { type AddressInfo, createServer, type Socket } from 'node:net';

export interface SmtpSink {
  readonly url: string;
  /** What was delivered, headers and text. */
  readonly mails: readonly string[];
  /** How often a mail was offered. */
  readonly offers: number;
  /** Answers to the next offers, instead of taking them. */
  readonly refusals: string[];
  close(): Promise<void>;
}

/** A mail server that keeps what it is given: as much of RFC 5321 as one mail takes. */
export async function smtpSink(): Promise<SmtpSink> {
  const mails: string[] = [];
  const refusals: string[] = [];
  const sockets = new Set<Socket>();
  let offers = 0;
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.setEncoding('utf8').on('error', () => socket.destroy());
    let mail: string | null = null;
    let rest = '';
    const say = (line: string): void => {
      socket.write(`${line}\r\n`);
    };
    const hear = (line: string): void => {
      if (mail !== null) {
        if (line !== '.') {
          mail += `${line}\n`;
          return;
        }
        mails.push(mail);
        mail = null;
        say('250 kept');
        return;
      }
      const verb = line.slice(0, 4).toUpperCase();
      if (verb === 'MAIL') {
        offers += 1;
        say(refusals.shift() ?? '250 go on');
      } else if (verb === 'DATA') {
        mail = '';
        say('354 go on');
      } else if (verb === 'QUIT') {
        say('221 bye');
        socket.end();
      } else say('250 yes');
    };
    socket.on('data', (text: string) => {
      const lines = (rest + text).split('\r\n');
      rest = lines.pop() ?? '';
      lines.forEach(hear);
    });
    say('220 sink');
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return {
    url: `smtp://127.0.0.1:${String(port)}`,
    mails,
    refusals,
    get offers() {
      return offers;
    },
    close: async () => {
      for (const socket of sockets) socket.destroy();
      server.close();
      await once(server, 'close');
    },
  };
}
