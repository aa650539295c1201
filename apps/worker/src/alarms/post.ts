import { lookup as dnsLookup } from 'node:dns';
import { request as plainRequest } from 'node:http';
import { request } from 'node:https';
import type { LookupFunction } from 'node:net';
import { isInside } from '#host/push-endpoint.ts';

export interface Posting {
  readonly endpoint: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Buffer;
  /** For tests: a push service of this machine. */
  readonly toLocal: boolean;
}

const patienceMs = 10_000;
/** Of what it answers; the rest is of no interest. */
const answerBytes = 2_000;

/** A name may have come to lead inside since it was written down: the address is what counts. */
const outward: LookupFunction = (hostname, options, done) => {
  dnsLookup(hostname, { ...options, all: true }, (error, addresses) => {
    const found = error === null ? addresses.filter(({ address }) => !isInside(address)) : [];
    const first = found.at(0);
    if (first === undefined) {
      done(error ?? new Error(`${hostname} leads to no push service`), []);
    } else if (options.all === true) {
      done(null, found);
    } else {
      done(null, first.address, first.family);
    }
  });
};

export interface Answered {
  readonly status: number;
  readonly words: string;
  /** Seconds that it asks to be left alone for. */
  readonly retryAfter: number | null;
}

/** Posts to a push service, and follows no redirection. Throws where none answers. */
export function post({ endpoint, headers, body, toLocal }: Posting): Promise<Answered> {
  const url = new URL(endpoint);
  const send = url.protocol === 'http:' && toLocal ? plainRequest : request;
  const answered = Promise.withResolvers<Answered>();
  const sending = send(
    url,
    {
      method: 'POST',
      headers,
      signal: AbortSignal.timeout(patienceMs),
      ...(toLocal ? {} : { lookup: outward }),
    },
    (answer) => {
      let words = '';
      answer.setEncoding('utf8');
      answer.on('data', (chunk: string) => {
        if (words.length < answerBytes) words += chunk;
      });
      answer.on('end', () => {
        const after = Number(answer.headers['retry-after']);
        answered.resolve({
          status: answer.statusCode ?? 0,
          words: words.slice(0, answerBytes),
          retryAfter: Number.isFinite(after) && after > 0 ? after : null,
        });
      });
      answer.on('error', answered.reject);
    },
  );
  sending.on('error', answered.reject);
  sending.end(body);
  return answered.promise;
}
