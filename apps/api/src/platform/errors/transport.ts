import { HttpException } from '@nestjs/common';
import { catalogue, type ErrorCode } from '#kernel/codes.ts';

interface Words {
  readonly code: ErrorCode;
  readonly detail: string;
  readonly cure?: string;
}

/** Refusals of Fastify itself, by its codes. Its own words are never passed on. */
const ofFastify: Readonly<Partial<Record<string, Words>>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: {
    code: 'input.limit',
    detail:
      'The body is larger than is taken here: 256 KiB; a whole yard or an outdoor table 4 MiB, a picture 15 MiB.',
    cure: 'Send less at once.',
  },
  FST_ERR_CTP_INVALID_MEDIA_TYPE: {
    code: 'input.malformed',
    detail: 'The body is not sent as JSON.',
    cure: 'Send JSON, with content-type: application/json.',
  },
  FST_ERR_CTP_INVALID_JSON_BODY: { code: 'input.malformed', detail: 'The body is not JSON.' },
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: {
    code: 'input.malformed',
    detail: 'The body is not as long as Content-Length says.',
    cure: 'Send the length in bytes, or leave it to the client.',
  },
  FST_ERR_BAD_URL: {
    code: 'input.malformed',
    detail: 'The address is not written as one.',
    cure: 'Encode what is no letter, digit or -._~ by % and two digits (RFC 3986).',
  },
  FST_ERR_MAX_PARAM_LENGTH: {
    code: 'input.limit',
    detail: 'A part of the address is longer than any id.',
    cure: 'Check the id.',
  },
};

const missing: Words = {
  code: 'record.missing',
  detail: 'There is nothing at this address.',
  cure: 'Check it; the addresses are in /api/v1/openapi.json.',
};

/** From `JSON.parse`, and from its check for names that would reach into the program. */
const notJson: Words = {
  code: 'input.malformed',
  detail: 'The body is not JSON, or has a field named __proto__ or constructor.prototype.',
};

const other: Words = { code: 'input.malformed', detail: catalogue['input.malformed'].title };

interface TransportRefusal extends Required<Words> {
  readonly status: number;
}

/** Undefined: no refusal of the transport, but a fault of ours. */
export function transportRefusal(thrown: unknown): TransportRefusal | undefined {
  const status = statusOf(thrown);
  if (status === undefined || status >= 500) return undefined;
  const { code, detail, cure = catalogue[code].cure } = wordsOf(status, thrown);
  return { status, code, detail, cure };
}

function wordsOf(status: number, thrown: unknown): Words {
  const code = thrown instanceof Error && 'code' in thrown ? String(thrown.code) : '';
  const known = ofFastify[code];
  if (known) return known;
  if (status === 404) return missing;
  return thrown instanceof SyntaxError ? notJson : other;
}

function statusOf(thrown: unknown): number | undefined {
  if (thrown instanceof HttpException) return thrown.getStatus();
  if (!(thrown instanceof Error)) return undefined;
  if ('statusCode' in thrown && typeof thrown.statusCode === 'number') return thrown.statusCode;
  return undefined;
}
