import { Logger, NotFoundException } from '@nestjs/common';
import { errorCodes, type FastifyInstance, type FastifyReply, type FastifyRequest } from 'fastify';
import { DomainError } from '#kernel/error.ts';
import { readScreens } from './screens.ts';
import { sendFile } from './send-file.ts';

/** Addresses of pages (`apps/web/src/routes.tsx`); what of a yard there is shows when it is asked for. */
const pages = /^\/(sign-in|password|invitation|account|begin|yards\/[^/]+\/.+)?\/?$/;
/** Of the service itself: what is not there is told as a problem, whoever asks. */
const ofService = /^\/(api|graphql)(\/|$)/;

const log = new Logger('screens');

/**
 * Serves the screens: their files, and the one page at each of its addresses. Who comes to another
 * address by a browser gets the page too, which says that there is nothing, with status 404; a
 * program gets a problem.
 */
export function serveScreens(fastify: FastifyInstance, folder: string): void {
  const screens = readScreens(folder);
  if (screens === null) {
    log.warn(`There are no screens in ${folder}: npm run build makes them. The API answers.`);
  }
  fastify.get('/*', (request: FastifyRequest, reply: FastifyReply) => {
    const path = request.url.replace(/[?#].*$/s, '');
    const file = screens?.files.get(path);
    if (file !== undefined) return sendFile(request, reply, file);
    const isPage = pages.test(path);
    if (ofService.test(path)) throw refusal(fastify, path);
    if (!isPage && !asksForPage(request)) throw new NotFoundException();
    if (screens === null) {
      throw new DomainError('service.unavailable', 'The screens are not built.', {
        cure: 'Whoever runs the service makes them by `npm run build` and starts it again.',
      });
    }
    return sendFile(request, reply, screens.page, isPage ? 200 : 404);
  });
}

/** An address that no route takes comes here also where only an id of it is too long. */
function refusal({ initialConfig }: FastifyInstance, path: string): Error {
  const longest = initialConfig.routerOptions?.maxParamLength ?? Infinity;
  return path.split('/').some((part) => part.length > longest)
    ? new errorCodes.FST_ERR_MAX_PARAM_LENGTH(path)
    : new NotFoundException();
}

const asksForPage = ({ headers }: FastifyRequest): boolean =>
  /\btext\/html\b/i.test(headers.accept ?? '');
