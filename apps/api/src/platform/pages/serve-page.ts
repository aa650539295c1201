import { readFile } from 'node:fs/promises';
import type { FastifyInstance } from 'fastify';
import { pagePolicy } from '../http/headers.ts';

const types = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
} as const;

/**
 * Serves a page of ours at `/name`: `name.html` of the folder, and beside it `name.css` and
 * `name.js`, since the content policy lets nothing run that stands in the page itself.
 */
export async function servePage(
  fastify: FastifyInstance,
  name: string,
  folder: URL,
): Promise<void> {
  for (const [ending, type] of Object.entries(types)) {
    const text = await readFile(new URL(`${name}${ending}`, folder));
    const path = ending === '.html' ? `/${name}` : `/${name}${ending}`;
    fastify.get(path, (_request, reply) =>
      reply.header('content-security-policy', pagePolicy).type(type).send(text),
    );
  }
}
