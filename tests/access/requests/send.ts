import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { z } from 'zod';
import type { Outcome } from '../outcome.ts';
import type { Request } from './fill.ts';
import { counted } from './statements.ts';

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly text: string;
  /** What was asked of the database for it. */
  readonly statements: readonly string[];
}

/** How long a stream that says nothing is listened to, ms: what it has to repeat it says at once. */
const patience = 15;

/** Sends a request into the service without a socket; a stream is left after what it says at first. */
export async function send(
  app: NestFastifyApplication,
  request: Request,
  silence = patience,
): Promise<Answer> {
  const { method, url, headers, body } = request;
  const { value, statements } = await counted(async () => {
    const answer = await app.inject({
      method: method as 'GET',
      url,
      headers: {
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined ? {} : { payload: body }),
      payloadAsStream: true,
    });
    const isEndless = String(answer.headers['content-type']).startsWith('text/event-stream');
    const text = await read(answer.stream(), isEndless ? silence : null);
    if (isEndless) answer.raw.res.destroy();
    return { status: answer.statusCode, headers: answer.headers, text };
  });
  return { ...value, statements };
}

async function read(stream: NodeJS.ReadableStream, silence: number | null): Promise<string> {
  const chunks: Buffer[] = [];
  await new Promise<void>((resolve) => {
    let timer: NodeJS.Timeout | undefined;
    const wait = (): void => {
      if (silence === null) return;
      clearTimeout(timer);
      timer = setTimeout(resolve, silence);
    };
    stream.on('data', (chunk: Buffer) => {
      chunks.push(chunk);
      wait();
    });
    // Broken off counts as ended: what came is what was answered.
    stream.once('end', resolve).once('error', () => resolve());
    wait();
  });
  return Buffer.concat(chunks).toString();
}

const coded = z.object({ code: z.string() });
const answerSchema = z.union([
  coded,
  z.object({ errors: z.tuple([z.object({ extensions: coded })]).rest(z.unknown()) }),
]);

/** The code of what was refused, on either face; null: nothing was. */
export function codeOf({ text }: Answer): string | null {
  if (!text.startsWith('{')) return null;
  const parsed = answerSchema.safeParse(JSON.parse(text));
  if (!parsed.success) return null;
  return 'code' in parsed.data ? parsed.data.code : parsed.data.errors[0].extensions.code;
}

const outcomes: Readonly<Partial<Record<string, Outcome>>> = {
  'access.sign-in': 'unauthenticated',
  'access.role': 'forbidden',
  'access.scope': 'forbidden',
  'access.second-factor': 'forbidden',
  'record.missing': 'not-found',
};

/**
 * What came of a call. Whatever else the operation says of it (a wrong password, a stale revision, a state
 * that it is not in) it says to somebody who was let in; a fault of the service is none of it.
 */
export function outcomeOf(answer: Answer): Outcome | 'fault' {
  if (answer.status >= 500) return 'fault';
  const code = codeOf(answer);
  if (code === null) return answer.status < 300 ? 'let in' : 'fault';
  return code === 'service.fault' ? 'fault' : (outcomes[code] ?? 'let in');
}
